import { levelRefusal, type Refusal } from '../../paint/rules/permit.ts';
import type { Wish } from '../../shared/views/estimate.ts';
import { LEVELS, type Level } from '../../shared/vocabulary.ts';
import { worstSeverity } from './gain.ts';
import type { WorkRules } from './panelWork.ts';
import { isMinorPanel, levelForWish } from './provisional.ts';
import { type PanelCase, panelShare, type WholeJob } from './stages.ts';

/** Why the film does not allow a level on a panel; null = it does. */
export function refusalOf(panel: PanelCase, level: Level, job: WholeJob, rules: WorkRules): Refusal | null {
  const removal = panelShare(panel, level, job, rules).removal;
  const asked = { level, plannedTenthUm: removal, safeTenthUm: panel.safe, thin: panel.thin };
  return levelRefusal({ ...asked, override: panel.override });
}

/** The highest level up to the one wanted that the film allows. */
export function allowedLevel(panel: PanelCase, wanted: Level, job: WholeJob, rules: WorkRules): Level {
  for (let i = LEVELS.indexOf(wanted); i > 1; i -= 1) {
    const level = LEVELS[i];
    if (level && refusalOf(panel, level, job, rules) === null) return level;
  }
  return wanted === 'leave' ? 'leave' : 'washOnly';
}

/** Levels that a wish starts from, panel by panel, within what the film allows. */
export function levelsForWish(
  panels: readonly PanelCase[],
  wish: Wish,
  job: WholeJob,
  rules: WorkRules,
): Level[] {
  return panels.map((panel) => {
    const wanted = levelForWish(wish, worstSeverity(panel.findings));
    const held = wanted === 'twoStage' && isMinorPanel(panel.size.panel) ? 'oneStage' : wanted;
    return allowedLevel(panel, held, job, rules);
  });
}
