import type { HandlersFor } from '../handler.ts';
import type { stockEntries } from '../shared/catalogue/stock.ts';

export const stockHandlers: HandlersFor<typeof stockEntries> = {};
