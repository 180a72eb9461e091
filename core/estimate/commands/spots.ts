import type { PaintHardness } from '../../shared/vocabulary.ts';
import type { TestSpotRow } from '../../views/inspection.ts';
import { worstSeverity } from '../rules/gain.ts';
import type { Calibration } from '../rules/learning.ts';
import { type PassFactors, panelWork, passesFor, type WorkRules } from '../rules/panelWork.ts';
import type { PanelCase } from '../rules/stages.ts';
import type { TestSpot } from '../rules/testSpot.ts';

/** The paint condition that a job is learned and estimated under: its worst damage, else what the job is for. */
export function conditionOf(panels: readonly PanelCase[], purpose: string): string {
  return worstSeverity(panels.flatMap((p) => p.findings)) ?? purpose;
}

export type SpotEvidence = { readonly spots: readonly TestSpot[]; readonly passFactors: PassFactors };

/**
 * What the test spots of a job say: passes taken over passes planned (the newest spot of a step counts), and the
 * time they took against the model at those very passes, calibrated for stage kind and condition.
 */
export function spotEvidence(
  rows: readonly TestSpotRow[],
  panels: readonly PanelCase[],
  hardness: PaintHardness,
  rules: WorkRules,
  c: Calibration,
  condition: string,
): SpotEvidence {
  const spots: TestSpot[] = [];
  const passFactors: Record<string, number> = {};
  for (const row of rows) {
    const panel = panels.find((p) => p.size.panel === row.panel);
    if (!panel) continue;
    const severity = worstSeverity(panel.findings);
    const factor = row.passes / passesFor(row.role, severity, hardness, rules);
    passFactors[row.role] = factor;
    const level = row.role === 'oneStep' ? 'oneStage' : 'threeStage';
    const work = panelWork(panel.size, level, severity, hardness, rules, { [row.role]: factor });
    const step = work.steps.find((s) => s.role === row.role);
    if (!step) continue;
    const effect = c.shop.log + (c.kind.get(step.stage)?.log ?? 0) + (c.condition.get(condition)?.log ?? 0);
    const modelS = (step.minutes / step.sections) * 60 * row.sections * Math.exp(effect);
    spots.push({ kind: step.stage, actualS: row.actualS, modelS });
  }
  return { spots, passFactors };
}
