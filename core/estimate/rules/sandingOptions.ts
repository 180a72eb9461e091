import type { Refusal } from '../../paint/rules/permit.ts';
import type { Defect, Level, PanelId } from '../../shared/vocabulary.ts';
import { levelsForWish, shareRefusal } from './levels.ts';
import { type EstimateCase, type Plan, planJob } from './plan.ts';
import { isSandable } from './sanding.ts';
import { type PanelCase, panelShare } from './stages.ts';

/** Wet sanding of one panel as an option beside a plan: what it adds, and whether the film allows it. */
export type SandingOption = {
  readonly panel: PanelId;
  readonly defects: readonly Defect[];
  /** Film of the sanding alone, and with the polishing after it at its deepest, 0.1 µm. */
  readonly lowTenthUm: number;
  readonly highTenthUm: number;
  readonly allTenthUm: number;
  readonly addedMin: number;
  readonly addedMinor: number;
  /** What the film says; whether the owner agreed is not asked here. Null = possible. */
  readonly refusal: Refusal | null;
  readonly taken: boolean;
};

/** Every panel with damage that only wet sanding reaches, priced against the plan with that panel as it is. */
export function sandingOptions(c: EstimateCase, plan: Plan): SandingOption[] {
  const levels = plan.panels.map((p) => p.level);
  return c.panels.flatMap((panel, i) => {
    const share = panelShare(panel, 'sanded', c.job, c.rules);
    const { sanding } = share;
    if (sanding === null) return [];
    const taken = levels[i] === 'sanded';
    const other = planJob(c, levels.with(i, taken ? unsanded(c, panel) : 'sanded'));
    const [sanded, without] = taken ? [plan, other] : [other, plan];
    const agreed = { name: '', way: 'spoken', atMs: 0, upToTenthUm: sanding.high } as const;
    return [
      {
        panel: panel.size.panel,
        defects: [...new Set(panel.findings.filter((f) => isSandable(f.defect)).map((f) => f.defect))],
        lowTenthUm: sanding.low,
        highTenthUm: sanding.high,
        allTenthUm: Math.round(share.removal),
        addedMin: Math.max(0, sanded.hours.p50Min - without.hours.p50Min),
        addedMinor: Math.max(0, sanded.total - without.total),
        refusal: shareRefusal({ ...panel, consent: agreed }, 'sanded', share),
        taken,
      },
    ];
  });
}

/** How far a panel would be taken for the wish if its owner had not agreed. */
function unsanded(c: EstimateCase, panel: PanelCase): Level {
  return levelsForWish([{ ...panel, consent: null }], c.job.wish, c.job, c.rules)[0] ?? 'leave';
}
