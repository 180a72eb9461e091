import type { StageShare } from '#core/shared/stageShare.ts';
import type { Ppm } from '../../shared/units.ts';
import { PPM } from '../../shared/units.ts';
import type { StageState } from '../../shared/vocabulary.ts';

export type HalfDoneStage = {
  readonly state: StageState;
  readonly panelCount: number;
  readonly panelsDone: number;
  readonly attendedMs: number;
  readonly p50Min: number;
  /** What somebody says was done, 0..1,000,000; null = not said. */
  readonly namedPpm: number | null;
};

/**
 * How much of a stage was done when its job is stopped, for billing by what was done.
 * A named share wins; then: done = all, panels finished / panels, time worked / planned (P50) but never more than all.
 * Planned or dropped without work = nothing. The last ppm is cut off, so that nobody pays for more than was done.
 *
 * @source common practice, no source
 */
export function shareDone(stage: HalfDoneStage): StageShare {
  if (stage.namedPpm !== null) return { sharePpm: stage.namedPpm as Ppm, basis: 'named' };
  if (stage.state === 'done') return { sharePpm: PPM as Ppm, basis: 'whole' };
  if (stage.panelsDone > 0 && stage.panelCount > 0)
    return {
      sharePpm: Math.floor((Math.min(stage.panelsDone, stage.panelCount) * PPM) / stage.panelCount) as Ppm,
      basis: 'panels',
    };
  if (stage.attendedMs > 0 && stage.p50Min > 0)
    return {
      sharePpm: Math.min(PPM, Math.floor((stage.attendedMs * PPM) / (stage.p50Min * 60_000))) as Ppm,
      basis: 'time',
    };
  return { sharePpm: 0 as Ppm, basis: 'nothing' };
}
