import { accessEntries } from './catalogue/access.ts';
import { bayChangeEntries } from './catalogue/bayChanges.ts';
import { baysEntries } from './catalogue/bays.ts';
import { billingEntries } from './catalogue/billing.ts';
import { bookingsEntries } from './catalogue/bookings.ts';
import { estimateEntries } from './catalogue/estimate.ts';
import { figuresEntries } from './catalogue/figures.ts';
import { hostEntries } from './catalogue/host.ts';
import { paintEntries } from './catalogue/paint.ts';
import { peopleEntries } from './catalogue/people.ts';
import { shopEntries } from './catalogue/shop.ts';
import { stockEntries } from './catalogue/stock.ts';
import { voucherEntries } from './catalogue/vouchers.ts';
import { whatIfEntries } from './catalogue/whatIf.ts';
import type { OutputOf, SentOf } from './entry.ts';

/** Every action of the program: the one list that windows, tests, seed and the command line come through. */
export const catalogue = {
  ...shopEntries,
  ...accessEntries,
  ...peopleEntries,
  ...paintEntries,
  ...estimateEntries,
  ...bookingsEntries,
  ...baysEntries,
  ...bayChangeEntries,
  ...stockEntries,
  ...billingEntries,
  ...voucherEntries,
  ...figuresEntries,
  ...whatIfEntries,
  ...hostEntries,
} as const;

export type EntryName = keyof typeof catalogue;
export type SentFor<N extends EntryName> = SentOf<(typeof catalogue)[N]>;
export type OutputFor<N extends EntryName> = OutputOf<(typeof catalogue)[N]>;
