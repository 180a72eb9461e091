import type { HandlersFor } from '../handler.ts';
import type { figuresEntries } from '../shared/catalogue/figures.ts';

export const figuresHandlers: HandlersFor<typeof figuresEntries> = {};
