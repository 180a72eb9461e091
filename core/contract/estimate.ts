import type { HandlersFor } from '../handler.ts';
import type { estimateEntries } from '../shared/catalogue/estimate.ts';

export const estimateHandlers: HandlersFor<typeof estimateEntries> = {};
