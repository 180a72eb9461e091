import type { Entry } from '../entry.ts';
import { stockItemEntries } from './stockItems.ts';
import { stockOrderEntries } from './stockOrders.ts';
import { stockUseEntries } from './stockUse.ts';

/** Commands and queries of the stock area. */
export const stockEntries = {
  ...stockItemEntries,
  ...stockUseEntries,
  ...stockOrderEntries,
} as const satisfies Readonly<Record<string, Entry>>;
