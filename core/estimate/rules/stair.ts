import { LEVELS, type Level, MACHINE_STAGES } from '../../shared/vocabulary.ts';
import { finishedMachine, isToDo } from './finished.ts';
import { gainOf } from './gain.ts';
import { handsFactor } from './hands.ts';
import { meanMinutes, stageDuration } from './hours.ts';
import { bestChoice, increments, type Option } from './knapsack.ts';
import { shareRefusal } from './levels.ts';
import type { EstimateCase } from './plan.ts';
import { panelShare, type RawStage, stageFrame } from './stages.ts';

export type Measure = 'hours' | 'money';

/** A group of panels kept at the same level: a single panel, or neighbours that are looked at together. */
type Group = {
  readonly at: readonly number[];
  readonly options: readonly (Option & { readonly level: Level })[];
};

/** What is lost when every panel is left as it is, and the extra that the first machine stage costs. */
type Costs = { readonly base: number; readonly machine: number };

/**
 * The exact best level per panel within a ceiling (mean minutes, or minor units), film limits kept. Null when even
 * leaving every panel alone exceeds it. No panel is taken further than `most`, but where its owner agreed to sand it.
 */
export function bestWithin(
  c: EstimateCase,
  measure: Measure,
  ceiling: number,
  alike: boolean,
  most: Level = 'sanded',
): Level[] | null {
  const groups = groupsOf(c, measure, alike, most);
  const costs = frameCosts(c, measure);
  // Rounding of the parts of a price to whole minor units may add up to one; stay below by two.
  const room = ceiling - costs.base - (measure === 'money' ? 2 : 0);
  if (room < 0) return null;
  const best = bestChoice(
    groups.map((g) => g.options),
    room - costs.machine,
  );
  const picks = best && best.gain > 0 ? best.picks : groups.map(() => 0);
  return spreadLevels(c, groups, picks);
}

/** Level choices along the stair, each the exact optimum at its own cost: from nothing to everything allowed. */
export function stairLevels(c: EstimateCase, measure: Measure, alike: boolean): Level[][] {
  const groups = groupsOf(c, measure, alike, 'sanded');
  const picks = groups.map(() => 0);
  const steps = [spreadLevels(c, groups, picks)];
  for (const step of increments(groups.map((g) => g.options))) {
    picks[step.of] = step.to;
    steps.push(spreadLevels(c, groups, picks));
  }
  return steps;
}

function spreadLevels(c: EstimateCase, groups: readonly Group[], picks: readonly number[]): Level[] {
  const levels: Level[] = c.panels.map(() => 'leave');
  groups.forEach((group, g) => {
    for (const i of group.at) levels[i] = group.options[picks[g] ?? 0]?.level ?? 'leave';
  });
  return levels;
}

function groupsOf(c: EstimateCase, measure: Measure, alike: boolean, most: Level): Group[] {
  const byKey = new Map<string, number[]>();
  c.panels.forEach((p, i) => {
    // A panel that no machine may work on must not keep its neighbours from being worked on.
    // Nor does an owner who agreed to sand one panel agree to sand those beside it.
    const alone = !alike || (p.thin && p.override === null) || p.consent !== null;
    const key = alone ? p.size.panel : alikeKey(p.size.panel);
    byKey.set(key, [...(byKey.get(key) ?? []), i]);
  });
  return [...byKey.values()].map((at) => ({ at, options: optionsOf(c, measure, at, most) }));
}

/** Both doors of a side, and a panel with its opposite, are looked at together. */
function alikeKey(panel: string): string {
  if (panel.length < 3) return panel;
  const part = panel.slice(1);
  return part === 'fd' || part === 'rd' ? 'doors' : part;
}

function optionsOf(c: EstimateCase, measure: Measure, at: readonly number[], most: Level): Group['options'] {
  const rest: Level = c.job.wish === 'interior' ? 'leave' : 'washOnly';
  const agreed = at.some((i) => c.panels[i]?.consent);
  const machine = LEVELS.slice(LEVELS.indexOf('oneStage'));
  const levels = machine.filter(
    (l) => isUpTo(l, most) || (agreed && l === 'sanded' && isUpTo('oneStage', most)),
  );
  const found: (Option & { level: Level })[] = [{ cost: 0, gain: 0, level: rest }];
  for (const level of levels) {
    const each = at.map((i) => optionFor(c, measure, i, level));
    if (each.some((o) => o === null)) continue;
    const cost = each.reduce((sum, o) => sum + (o?.cost ?? 0), 0);
    const gain = each.reduce((sum, o) => sum + (o?.gain ?? 0), 0);
    found.push({ cost, gain, level });
  }
  return found;
}

function isUpTo(level: Level, most: Level): boolean {
  return LEVELS.indexOf(level) <= LEVELS.indexOf(most);
}

/** Null where the film does not allow the level. */
function optionFor(c: EstimateCase, measure: Measure, i: number, level: Level): Option | null {
  const p = c.panels[i];
  if (!p) return null;
  const share = panelShare(p, level, c.job, c.rules);
  if (shareRefusal(p, level, share) !== null) return null;
  return {
    cost: costOf(c, measure, share.parts),
    gain: gainOf(p.size.areaCm2, p.size.weight, p.findings, share.removal),
  };
}

/** Mean minutes, or mean money, of parts of stages: means add up, whatever the stages share. */
function costOf(c: EstimateCase, measure: Measure, parts: readonly RawStage[]): number {
  return parts.reduce((sum, part) => sum + partCost(c, measure, part), 0);
}

function partCost(c: EstimateCase, measure: Measure, part: RawStage): number {
  if (part.minutes <= 0) return 0;
  const unit = stageDuration(1, part.kind, c.knowledge, c.calibration);
  // What is finished on these panels costs nothing more; it stands in the base with what it took.
  const minutes = isToDo(part, c.finished) ? part.minutes * handsFactor(part.kind, c.job) : 0;
  if (measure === 'hours') return minutes * meanMinutes(unit);
  const factor = c.priceRule === 'mean' ? meanMinutes(unit) : Math.exp(unit.mu);
  let money = (minutes * factor * c.rates[part.kind]) / 60;
  for (const [material, amount] of part.amounts) money += amount * (c.materialPrice[material] ?? 0);
  return money;
}

function frameCosts(c: EstimateCase, measure: Measure): Costs {
  const frame = stageFrame(c.panels, c.job, false);
  const worked = stageFrame(c.panels, c.job, true);
  const plain = costOf(c, measure, frame) + finishedCost(c, measure, frame);
  const whole = costOf(c, measure, worked) + finishedCost(c, measure, worked);
  // Machine work that is finished stays paid for, whatever is chosen for what is left.
  return finishedMachine(c.finished).length > 0
    ? { base: whole, machine: 0 }
    : { base: plain, machine: whole - plain };
}

/** What finished stages took, of the kinds that are in the plan; a cut and a refining that are done count there too. */
function finishedCost(c: EstimateCase, measure: Measure, frame: readonly RawStage[]): number {
  const machine = frame.some((part) => part.kind === 'mask');
  const kinds = new Set([...frame.map((part) => part.kind), ...(machine ? MACHINE_STAGES : [])]);
  let cost = 0;
  for (const kind of kinds) {
    const minutes = c.finished.get(kind)?.minutes ?? 0;
    cost += measure === 'hours' ? minutes : (minutes * c.rates[kind]) / 60;
  }
  return cost;
}
