import { MACHINE_STAGES, type PanelId, type StageKind } from '../../shared/vocabulary.ts';
import { type Duration, totalOf } from './hours.ts';
import type { RawStage } from './stages.ts';

/** What finished stages of the job took, minutes by kind, and on which panels (none = the whole car). */
export type Finished = ReadonlyMap<
  StageKind,
  { readonly minutes: number; readonly panels: readonly PanelId[] }
>;

/** Machine work that is finished: it belongs to the job, whatever is chosen for what is left, and nothing is added to it. */
export function finishedMachine(finished: Finished): readonly RawStage[] {
  return MACHINE_STAGES.flatMap((kind) => {
    const done = finished.get(kind);
    return done ? [{ kind, panels: done.panels, minutes: 0, dwellMin: 0, amounts: new Map() }] : [];
  });
}

/** True for a part of a stage that is still to be done: its kind is not finished, or not on these panels. */
export function isToDo(part: Pick<RawStage, 'kind' | 'panels'>, finished: Finished): boolean {
  const done = finished.get(part.kind);
  if (!done) return true;
  return done.panels.length > 0 && part.panels.some((panel) => !done.panels.includes(panel));
}

/**
 * Duration of a stage of which some is finished: what it took stands as it is, only the rest is uncertain. Null for a
 * stage that takes nobody's time.
 */
export function withFinished(rest: Duration | null, minutes: number): Duration | null {
  if (minutes <= 0) return rest;
  const done = { mu: Math.log(minutes), sigma: 0, shared: 0 };
  if (rest === null) return done;
  const { mu, sigma } = totalOf([done, rest]);
  return { mu, sigma, shared: Math.min(rest.shared, sigma ** 2) };
}
