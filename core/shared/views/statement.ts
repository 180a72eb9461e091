import type { LocalDay, Minor } from '../units.ts';
import type { PartyView, SellerView } from './billing.ts';

/** `receipt`: money in or back; `use`: money held for one customer that was laid on a document of another. */
export const STATEMENT_ENTRIES = ['invoice', 'prepayment', 'partial', 'credit', 'receipt', 'use'] as const;
export type StatementEntryKind = (typeof STATEMENT_ENTRIES)[number];

/** What changed a customer's account on a day: above zero they owe more. */
export type StatementEntry = {
  readonly day: LocalDay;
  readonly what: StatementEntryKind;
  /** Of the document or receipt. */
  readonly number: number;
  readonly amountMinor: Minor;
  /** After this entry. */
  readonly balanceMinor: Minor;
};

/** A customer's account over a period; below zero the shop holds money for them. Tips are no part of it. */
export type StatementView = {
  readonly customer: PartyView;
  readonly seller: SellerView;
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly openingMinor: Minor;
  readonly entries: readonly StatementEntry[];
  readonly closingMinor: Minor;
};

/** Tips of one person; `name` is '' for those that everybody shares. */
export type TipRow = {
  readonly personId: string | null;
  readonly name: string;
  readonly tips: number;
  readonly amountMinor: Minor;
};
export type TipReport = { readonly rows: readonly TipRow[]; readonly amountMinor: Minor };
