import { levelRefusal, type Refusal, sandingRefusal } from '../../paint/rules/permit.ts';
import type { Wish } from '../../shared/views/estimate.ts';
import { LEVELS, type Level } from '../../shared/vocabulary.ts';
import { worstSeverity } from './gain.ts';
import type { WorkRules } from './panelWork.ts';
import { isMinorPanel, levelForWish } from './provisional.ts';
import { type PanelCase, type PanelShare, panelShare, type WholeJob } from './stages.ts';

/** Why the film does not allow a level on a panel; null = it does. */
export function refusalOf(panel: PanelCase, level: Level, job: WholeJob, rules: WorkRules): Refusal | null {
  return shareRefusal(panel, level, panelShare(panel, level, job, rules));
}

/** The same for work that is known already. */
export function shareRefusal(
  panel: Pick<PanelCase, 'safe' | 'sandable' | 'thin' | 'consent' | 'override'>,
  level: Level,
  share: Pick<PanelShare, 'removal' | 'sanding'>,
): Refusal | null {
  const { thin, override, consent, safe, sandable } = panel;
  const asked = { plannedTenthUm: share.removal, thin, override };
  if (level !== 'sanded') return levelRefusal({ ...asked, level, safeTenthUm: safe });
  return sandingRefusal({
    ...asked,
    consent,
    limitTenthUm: sandable,
    sandTenthUm: share.sanding?.high ?? null,
  });
}

/** The highest level up to the one wanted that the film allows. */
export function allowedLevel(panel: PanelCase, wanted: Level, job: WholeJob, rules: WorkRules): Level {
  for (let i = LEVELS.indexOf(wanted); i > 1; i -= 1) {
    const level = LEVELS[i];
    if (level && refusalOf(panel, level, job, rules) === null) return level;
  }
  return wanted === 'leave' ? 'leave' : 'washOnly';
}

/** The furthest that any panel is taken for a wish, whatever a ceiling leaves room for. */
export function mostForWish(wish: Wish): Level {
  return wish === 'full' ? 'sanded' : levelForWish(wish, 'heavy');
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
    const machine = held !== 'leave' && held !== 'washOnly';
    return allowedLevel(panel, machine && panel.consent !== null ? 'sanded' : held, job, rules);
  });
}
