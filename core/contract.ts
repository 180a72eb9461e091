import { accessHandlers } from './contract/access.ts';
import { bayChangeHandlers, baysHandlers } from './contract/bays.ts';
import { billingHandlers } from './contract/billing.ts';
import { bookingsHandlers } from './contract/bookings.ts';
import { estimateHandlers } from './contract/estimate.ts';
import { figuresHandlers, whatIfHandlers } from './contract/figures.ts';
import { paintHandlers } from './contract/paint.ts';
import { peopleHandlers } from './contract/people.ts';
import { shopHandlers } from './contract/shop.ts';
import { stockHandlers } from './contract/stock.ts';
import { voucherHandlers } from './contract/vouchers.ts';
import type { HandlersFor } from './handler.ts';
import type { catalogue } from './shared/catalogue.ts';

/** Binds every catalogue entry to what carries it out. Only core/host and tests import this. */
export const contract: HandlersFor<typeof catalogue> = {
  ...shopHandlers,
  ...accessHandlers,
  ...peopleHandlers,
  ...paintHandlers,
  ...estimateHandlers,
  ...bookingsHandlers,
  ...baysHandlers,
  ...bayChangeHandlers,
  ...stockHandlers,
  ...billingHandlers,
  ...voucherHandlers,
  ...figuresHandlers,
  ...whatIfHandlers,
};
