import type { CustomerId, InvoiceId, VoucherId } from '../ids.ts';
import type { VoucherPurpose } from '../settings/billing.ts';
import type { EpochMs, LocalDay, Minor } from '../units.ts';
import type { SellerView } from './billing.ts';

export const VOUCHER_ENTRIES = ['sold', 'used', 'returned', 'paidBack'] as const;
export type VoucherEntryKind = (typeof VOUCHER_ENTRIES)[number];

/** What a draft takes off for a taxed voucher, with tax. */
export type VoucherOff = { readonly voucherId: VoucherId; readonly amountMinor: Minor };

/** A voucher with what is left of it; `expired` = its last day is past. */
export type VoucherRow = {
  readonly id: VoucherId;
  readonly number: number;
  readonly purpose: VoucherPurpose;
  readonly valueMinor: Minor;
  readonly leftMinor: Minor;
  readonly customerId: CustomerId;
  readonly customer: string;
  readonly forName: string;
  readonly soldDay: LocalDay;
  readonly expiresDay: LocalDay | null;
  readonly expired: boolean;
  /** The invoice that taxed a single-purpose one; null for the others. */
  readonly invoiceId: InvoiceId | null;
  readonly invoiceNumber: number | null;
};

/** One thing that became of a voucher: below zero what went off it. */
export type VoucherEntryRow = {
  readonly kind: VoucherEntryKind;
  readonly amountMinor: Minor;
  readonly atMs: EpochMs;
  readonly by: string;
  readonly invoiceId: InvoiceId | null;
  readonly invoiceNumber: number | null;
};

export type VouchersPage = {
  readonly rows: readonly VoucherRow[];
  readonly total: number;
  /** Of all vouchers that are not past their day. */
  readonly heldMinor: Minor;
  readonly purpose: VoucherPurpose;
  readonly days: number;
};

export type VoucherView = VoucherRow & {
  readonly entries: readonly VoucherEntryRow[];
  readonly seller: SellerView;
};
