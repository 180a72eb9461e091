import type { CustomerId, InvoiceId, VoucherId } from '../ids.ts';
import type { VoucherPurpose } from '../settings/billing.ts';
import type { EpochMs, LocalDay, Minor } from '../units.ts';
import type { SellerView } from './billing.ts';

export const VOUCHER_ENTRIES = ['sold', 'used', 'returned', 'paidBack', 'letGo', 'restored'] as const;
export type VoucherEntryKind = (typeof VOUCHER_ENTRIES)[number];

/** What a draft takes off for a taxed voucher, with tax. */
export type VoucherOff = { readonly voucherId: VoucherId; readonly amountMinor: Minor };

/**
 * A voucher with what is left of it; `expired` = its last day is past. `expiresDay` is a later one than its sheet says
 * where the owner takes it longer.
 */
export type VoucherRow = {
  readonly id: VoucherId;
  readonly number: number;
  /** What its sheet bears beside the number, without dashes: whoever uses it has to know it. */
  readonly code: string;
  readonly purpose: VoucherPurpose;
  readonly valueMinor: Minor;
  readonly leftMinor: Minor;
  /** Null with the name '' where whoever bought it was not named. */
  readonly customerId: CustomerId | null;
  readonly customer: string;
  readonly forName: string;
  readonly soldDay: LocalDay;
  readonly expiresDay: LocalDay | null;
  readonly expired: boolean;
  /** Let go as income after its last day, and not held again: 0 or above. */
  readonly letGoMinor: Minor;
  /** The first day that what is left may be let go; null without a last day. */
  readonly letGoDay: LocalDay | null;
  /** Something is left, and that day has come. */
  readonly mayLetGo: boolean;
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

export const VOUCHER_LISTS = ['all', 'over'] as const;
/** All of them, or those past their day of which money is still held. */
export type VoucherList = (typeof VOUCHER_LISTS)[number];

export type VouchersPage = {
  readonly rows: readonly VoucherRow[];
  readonly total: number;
  /** With tax, of all vouchers: what the books still hold, whether past its day or not. */
  readonly heldMinor: Minor;
  /** The part of it that is past its day. */
  readonly overMinor: Minor;
  readonly purpose: VoucherPurpose;
  readonly days: number;
};

export type VoucherView = VoucherRow & {
  /** What is left, as coins make it. */
  readonly leftCashMinor: Minor;
  readonly entries: readonly VoucherEntryRow[];
  readonly seller: SellerView;
};
