import { bestOfJob, learning, preview, versions } from '../estimate/commands/ask.ts';
import { explain } from '../estimate/commands/explain.ts';
import { sandingOfJob } from '../estimate/commands/sanding.ts';
import {
  estimateAgain,
  estimateAsChosen,
  estimateAsSeen,
  estimateAsTold,
  estimateByHands,
} from '../flows/estimateJob.ts';
import { agreeAndPlan, withdrawAndPlan } from '../flows/sandPanel.ts';
import type { HandlersFor } from '../handler.ts';
import type { estimateEntries } from '../shared/catalogue/estimate.ts';

export const estimateHandlers: HandlersFor<typeof estimateEntries> = {
  'estimate.preview': preview,
  'estimate.provisional': estimateAsTold,
  'estimate.fromInspection': estimateAsSeen,
  'estimate.again': estimateAgain,
  'estimate.choose': estimateAsChosen,
  'estimate.agreeSanding': agreeAndPlan,
  'estimate.withdrawSanding': withdrawAndPlan,
  'estimate.hands': estimateByHands,
  'estimate.bestWithin': bestOfJob,
  'estimate.sanding': sandingOfJob,
  'estimate.ofJob': versions,
  'estimate.explain': explain,
  'estimate.learning': learning,
};
