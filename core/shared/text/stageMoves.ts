import type { EstimateView } from '../views/estimate.ts';
import { LEVELS, type PanelId, type StageKind } from '../vocabulary.ts';
import { hours } from './format.ts';
import type { Manner } from './manner.ts';
import { say } from './say.ts';

type Version = Pick<EstimateView, 'panels' | 'stages' | 'asked' | 'factors'>;

/**
 * What a test spot did to the hours of a job, stage by stage, as `cut 4.0 → 5.1 h`; stages that read the same are left
 * out, and so are finished ones (σ = 0), which stand with what they took. A panel that the spot's film limit lowered is
 * part of it. Empty where the later version has no further spot, or was also asked for otherwise or takes a panel
 * further: then its hours moved for more than one reason.
 */
export function spotMoves(
  manner: Manner,
  before: Version,
  after: Version,
  which: 'tried' | 'all',
): readonly string[] {
  if (spotsOf(after) <= spotsOf(before) || asked(before) !== asked(after) || raises(before, after)) return [];
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

/** How many test spots a version rests on. */
function spotsOf({ factors }: Version): number {
  return factors.find((f) => f.what === 'testSpot' && f.of === '')?.n ?? 0;
}

function asked({ asked: { interior, protection, two } }: Version): string {
  return JSON.stringify([interior, protection, two]);
}

/** A panel is taken further than before. */
function raises(before: Version, after: Version): boolean {
  const rank = ({ panels }: Version, panel: PanelId): number =>
    LEVELS.indexOf(panels.find((p) => p.panel === panel)?.level ?? 'leave');
  return after.panels.some(({ panel }) => rank(after, panel) > rank(before, panel));
}
