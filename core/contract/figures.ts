import type { HandlersFor } from '../handler.ts';
import type { figuresEntries } from '../shared/catalogue/figures.ts';
import { cellJobs } from '../views/cellJobs.ts';
import { honestyView, marginView } from '../views/figures.ts';
import { utilizationView } from '../views/utilization.ts';

export const figuresHandlers: HandlersFor<typeof figuresEntries> = {
  'figures.utilization': utilizationView,
  'figures.cellJobs': cellJobs,
  'figures.honesty': honestyView,
  'figures.margin': marginView,
};
