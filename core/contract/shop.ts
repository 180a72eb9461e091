import type { HandlersFor } from '../handler.ts';
import type { shopEntries } from '../shared/catalogue/shop.ts';

export const shopHandlers: HandlersFor<typeof shopEntries> = {};
