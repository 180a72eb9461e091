import type { Purpose } from '../../shared/views/bookings.ts';
import type { StageKind, StageState } from '../../shared/vocabulary.ts';

type Stage = { readonly kind: StageKind; readonly state: StageState };

/** Stages that stand between the car and its being ready; handing over comes after. */
export function openStages<S extends Stage>(stages: readonly S[]): readonly S[] {
  return stages.filter((s) => s.kind !== 'handover' && s.state !== 'done' && s.state !== 'dropped');
}

/**
 * True when the last stage has ended. A car that was only looked at is ready only if looking was all it came for:
 * else it waits for its quote.
 */
export function isReady(stages: readonly Stage[], purpose: Purpose): boolean {
  if (openStages(stages).length > 0) return false;
  const done = stages.filter((s) => s.state === 'done' && s.kind !== 'handover');
  return done.some((s) => s.kind !== 'inspection' || purpose === 'inspectionVisit');
}

/** An unattended stage that follows at once when the stage before it ends, or null. */
export function runsNext<S extends Stage & { readonly seq: number; readonly crew: number }>(
  stages: readonly S[],
): S | null {
  const next = openStages(stages)[0];
  return next && next.crew === 0 && next.state === 'planned' ? next : null;
}
