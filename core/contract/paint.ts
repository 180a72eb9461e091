import type { HandlersFor } from '../handler.ts';
import type { paintEntries } from '../shared/catalogue/paint.ts';

export const paintHandlers: HandlersFor<typeof paintEntries> = {};
