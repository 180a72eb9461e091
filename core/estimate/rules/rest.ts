import type { RestView } from '../../shared/views/estimate.ts';
import { LEVELS, type Level } from '../../shared/vocabulary.ts';
import { gainOf } from './gain.ts';
import { shareRefusal } from './levels.ts';
import type { EstimateCase, Plan } from './plan.ts';
import { type PanelCase, panelShare } from './stages.ts';

/** What a panel's damage could bring: by the level that the film allows, by the deepest of all, and if all came out. */
export type Reach = { readonly allowed: number; readonly deepest: number; readonly all: number };

const MACHINE_LEVELS: readonly Level[] = LEVELS.filter((l) => l !== 'leave' && l !== 'washOnly');

/** How far each panel could be taken, in the order of `c.panels`. The same for every choice of levels. */
export function reachesOf(c: EstimateCase): Reach[] {
  return c.panels.map((p) => {
    const gain = (removal: number): number => gainOf(p.size.areaCm2, p.size.weight, p.findings, removal);
    let allowed = 0;
    let deepest = 0;
    for (const level of MACHINE_LEVELS) {
      const share = panelShare(p, level, c.job, c.rules);
      const refusal = shareRefusal(p, level, share);
      // What nobody agreed to sand is no matter of the film: it lies deeper than polishing goes.
      if (refusal === 'notAgreed' || refusal === 'nothingToSand') continue;
      deepest = Math.max(deepest, gain(share.removal));
      if (refusal === null) allowed = Math.max(allowed, gain(share.removal));
    }
    return { allowed, deepest, all: gain(Number.POSITIVE_INFINITY) };
  });
}

/**
 * Why the rest of the damage stays, as shares of all of it (ppm): left by this choice, which more work would take; held
 * by the film, which allows no more; deeper than the work goes. With the plan's gain they make a
 * whole. Beside them what of the gain lies where film is not known.
 */
export function restOf(panels: readonly PanelCase[], reaches: readonly Reach[], plan: Plan): RestView {
  let all = 0;
  let film = 0;
  let depth = 0;
  let unknown = 0;
  panels.forEach((p, i) => {
    const reach = reaches[i];
    if (!reach) return;
    const taken = gainOf(p.size.areaCm2, p.size.weight, p.findings, plan.shares[i]?.removal ?? 0);
    all += reach.all;
    if (p.safe === null) unknown += taken;
    film += Math.max(0, reach.deepest - Math.max(reach.allowed, taken));
    depth += reach.all - Math.max(reach.deepest, taken);
  });
  const ppm = (part: number): number => (all > 0 ? Math.round((part / all) * 1_000_000) : 0);
  const [filmPpm, depthPpm] = [ppm(film), ppm(depth)];
  const stays = all > 0 ? 1_000_000 - plan.gainPpm : 0;
  const choicePpm = Math.max(0, stays - filmPpm - depthPpm);
  return { choicePpm, filmPpm, depthPpm, unknownPpm: ppm(unknown) };
}
