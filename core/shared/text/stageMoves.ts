import type { EstimateView } from '../views/estimate.ts';
import type { StageKind } from '../vocabulary.ts';
import { hours } from './format.ts';
import type { Manner } from './manner.ts';
import { say } from './say.ts';

type Version = Pick<EstimateView, 'panels' | 'stages' | 'asked' | 'basis' | 'factors'>;

/**
 * What a test spot did to the hours of a job, stage by stage, as `cut 4.0 → 5.1 h`; stages that read the same are left
 * out, and so are finished ones (σ = 0), which stand with what they took. Empty where the later version does not rest on a spot, or was also made with other levels, hands or extras: then
 * its hours moved for more than one reason.
 */
export function spotMoves(
  manner: Manner,
  before: Version,
  after: Version,
  which: 'tried' | 'all',
): readonly string[] {
  if (after.basis !== 'testSpot' || asPlanned(before) !== asPlanned(after)) return [];
  const tried = new Set(after.factors.flatMap((f) => (f.what === 'testSpot' ? [f.of] : [])));
  return after.stages.flatMap((stage) => {
    const was = before.stages.find((s) => s.kind === stage.kind);
    if (!was || stage.crew === 0 || stage.sigma === 0 || (which === 'tried' && !tried.has(stage.kind)))
      return [];
    const [from, to] = [hours(manner, was.p50Min).value, hours(manner, stage.p50Min).value];
    return from === to
      ? []
      : [say(manner.locale, 'estimate.stageMove', { ...named(manner, stage.kind), from, to })];
  });
}

function named(manner: Manner, kind: StageKind): { readonly stage: string } {
  return { stage: say(manner.locale, `word.stage.${kind}`) };
}

/** What was chosen for the car, whatever hours it comes to. */
function asPlanned({ panels, asked: { interior, protection, two } }: Version): string {
  return JSON.stringify([panels.map((p) => [p.panel, p.level]), interior, protection, two]);
}
