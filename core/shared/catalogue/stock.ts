import type { Entry } from '../entry.ts';
import { stockContainerEntries } from './stockContainers.ts';
import { stockCountEntries } from './stockCounts.ts';
import { stockItemEntries } from './stockItems.ts';
import { stockOrderEntries } from './stockOrders.ts';
import { stockUseEntries } from './stockUse.ts';

/** Commands and queries of the stock area. */
export const stockEntries = {
  ...stockItemEntries,
  ...stockUseEntries,
  ...stockContainerEntries,
  ...stockCountEntries,
  ...stockOrderEntries,
} as const satisfies Readonly<Record<string, Entry>>;
