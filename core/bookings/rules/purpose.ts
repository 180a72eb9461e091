import type { StagePlan } from '../../shared/stagePlan.ts';
import type { Purpose } from '../../shared/views/bookings.ts';

/**
 * What a job is for once the car was looked at: what its stages do to it.
 *
 * purposeAfterLook([wash, clay, cut, protect]) //=> 'correction'
 */
export function purposeAfterLook(
  stages: readonly Pick<StagePlan, 'kind'>[],
): Exclude<Purpose, 'inspectionVisit' | 'redo'> {
  const has = (...kinds: readonly StagePlan['kind'][]): boolean =>
    stages.some((stage) => kinds.includes(stage.kind));
  if (has('sand', 'cut', 'refine')) return 'correction';
  if (has('protect')) return 'protection';
  return has('interior') ? 'interior' : 'washOnly';
}
