import type { StagePlan } from '../../shared/stagePlan.ts';
import type { Purpose } from '../../shared/views/bookings.ts';
import { isMachineStage } from '../../shared/vocabulary.ts';

/**
 * What a job is for once the car was looked at: what its stages do to it.
 *
 * purposeAfterLook([wash, clay, cut, protect]) //=> 'correction'
 */
export function purposeAfterLook(
  stages: readonly Pick<StagePlan, 'kind'>[],
): Exclude<Purpose, 'inspectionVisit' | 'redo'> {
  const has = (kind: StagePlan['kind']): boolean => stages.some((stage) => stage.kind === kind);
  if (stages.some((stage) => isMachineStage(stage.kind))) return 'correction';
  if (has('protect')) return 'protection';
  return has('interior') ? 'interior' : 'washOnly';
}
