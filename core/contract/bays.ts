import type { HandlersFor } from '../handler.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';

export const baysHandlers: HandlersFor<typeof baysEntries> = {};
