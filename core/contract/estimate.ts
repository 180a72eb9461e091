import { bestOfJob, learning, preview, versions } from '../estimate/commands/ask.ts';
import { explain } from '../estimate/commands/explain.ts';
import { chooseLevels, makeFromInspection, makeProvisional } from '../estimate/commands/make.ts';
import type { HandlersFor } from '../handler.ts';
import type { estimateEntries } from '../shared/catalogue/estimate.ts';

export const estimateHandlers: HandlersFor<typeof estimateEntries> = {
  'estimate.preview': preview,
  'estimate.provisional': makeProvisional,
  'estimate.fromInspection': makeFromInspection,
  'estimate.choose': chooseLevels,
  'estimate.bestWithin': bestOfJob,
  'estimate.ofJob': versions,
  'estimate.explain': explain,
  'estimate.learning': learning,
};
