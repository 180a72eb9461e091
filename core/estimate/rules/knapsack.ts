/** One level of one panel: cost ≥ 0 (hours or money) and gain ≥ 0. */
export type Option = { readonly cost: number; readonly gain: number };
export type Choice = {
  /** Index of the chosen option per class. */
  readonly picks: readonly number[];
  readonly cost: number;
  readonly gain: number;
};

/** A step up in one class: from one hull option to the next. */
export type Increment = {
  readonly of: number;
  readonly to: number;
  readonly cost: number;
  readonly gain: number;
};

type State = {
  readonly cost: number;
  readonly gain: number;
  readonly pick: number;
  readonly from: State | null;
};

/**
 * The exact best choice of one option per class within a ceiling: most gain, then least cost. Null when even the
 * cheapest options together exceed it. Lists of undominated partial choices, cut by the linear relaxation's bound.
 * @source multiple-choice knapsack, H. Kellerer, U. Pferschy, D. Pisinger, Knapsack Problems (2004) ch. 11, from memory
 */
export function bestChoice(classes: readonly (readonly Option[])[], ceiling: number): Choice | null {
  const least = classes.map((options) => Math.min(...options.map((o) => o.cost)));
  const leastAfter = suffixSums(least);
  if ((leastAfter[0] ?? 0) > ceiling) return null;
  const bounds = suffixBounds(classes);
  let best = greedy(classes, ceiling).gain;
  let states: State[] = [{ cost: 0, gain: 0, pick: -1, from: null }];
  classes.forEach((options, i) => {
    const room = ceiling - (leastAfter[i + 1] ?? 0);
    const bound = bounds[i + 1];
    const next = undominated(extend(states, options, room));
    states = bound ? next.filter((s) => s.gain + bound(ceiling - s.cost) >= best - 1e-9) : next;
    for (const s of states) best = Math.max(best, s.gain + (bound ? bound.floor : 0));
  });
  return trace(states);
}

/** The last state of the list has the most gain; among equals the cheapest survived. */
function trace(states: readonly State[]): Choice | null {
  const last = states.at(-1);
  if (!last) return null;
  const picks: number[] = [];
  for (let s: State | null = last; s?.from; s = s.from) picks.push(s.pick);
  return { picks: picks.reverse(), cost: last.cost, gain: last.gain };
}

function extend(states: readonly State[], options: readonly Option[], room: number): State[][] {
  return options.map((option, pick) => {
    const shifted: State[] = [];
    for (const s of states) {
      const cost = s.cost + option.cost;
      if (cost > room + 1e-9) break;
      shifted.push({ cost, gain: s.gain + option.gain, pick, from: s });
    }
    return shifted;
  });
}

/** Merges lists sorted by cost, keeping only states that gain more than every cheaper one. */
function undominated(lists: readonly State[][]): State[] {
  const all = lists.flat().sort((a, b) => a.cost - b.cost || b.gain - a.gain);
  const kept: State[] = [];
  let top = -1;
  for (const s of all) {
    if (s.gain <= top) continue;
    kept.push(s);
    top = s.gain;
  }
  return kept;
}

function suffixSums(values: readonly number[]): number[] {
  const sums = [0];
  for (let i = values.length - 1; i >= 0; i -= 1) sums.unshift((sums[0] ?? 0) + (values[i] ?? 0));
  return sums;
}

type Bound = { (room: number): number; readonly floor: number };

/** For every suffix of classes: the most the relaxation gains with a given room. */
function suffixBounds(classes: readonly (readonly Option[])[]): Bound[] {
  return Array.from({ length: classes.length + 1 }, (_, i) => relaxation(classes.slice(i)));
}

function relaxation(classes: readonly (readonly Option[])[]): Bound {
  const start = classes.map(cheapest);
  const floor = start.reduce((sum, o) => sum + o.gain, 0);
  const spent = start.reduce((sum, o) => sum + o.cost, 0);
  const costs = [spent];
  const gains = [floor];
  for (const step of increments(classes)) {
    costs.push((costs.at(-1) ?? 0) + step.cost);
    gains.push((gains.at(-1) ?? 0) + step.gain);
  }
  const bound = (room: number): number => interpolate(costs, gains, room);
  return Object.assign(bound, { floor });
}

function interpolate(costs: readonly number[], gains: readonly number[], room: number): number {
  let low = 0;
  let high = costs.length - 1;
  if (room >= (costs[high] ?? 0)) return gains[high] ?? 0;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if ((costs[mid] ?? 0) <= room) low = mid;
    else high = mid;
  }
  const width = (costs[high] ?? 0) - (costs[low] ?? 0);
  const share = width > 0 ? Math.max(0, room - (costs[low] ?? 0)) / width : 0;
  return (gains[low] ?? 0) + share * ((gains[high] ?? 0) - (gains[low] ?? 0));
}

function cheapest(options: readonly Option[]): Option & { readonly at: number } {
  let at = 0;
  options.forEach((o, i) => {
    const now = options[at];
    if (now && (o.cost < now.cost || (o.cost === now.cost && o.gain > now.gain))) at = i;
  });
  const found = options[at];
  return { cost: found?.cost ?? 0, gain: found?.gain ?? 0, at };
}

/**
 * Steps along the upper hulls of all classes, best gain per cost first: every prefix of them is an exact optimum at
 * its own cost. Cheapest options are where they start.
 */
export function increments(classes: readonly (readonly Option[])[]): Increment[] {
  const all = classes.flatMap((options, of) => hullSteps(options, of));
  return all.sort((a, b) => b.gain * a.cost - a.gain * b.cost || a.of - b.of || a.to - b.to);
}

function hullSteps(options: readonly Option[], of: number): Increment[] {
  const steps: Increment[] = [];
  let now = cheapest(options);
  for (;;) {
    let next: (Option & { at: number }) | null = null;
    let slope = 0;
    options.forEach((o, at) => {
      if (o.cost < now.cost || o.gain <= now.gain) return;
      const s = o.cost === now.cost ? Number.POSITIVE_INFINITY : (o.gain - now.gain) / (o.cost - now.cost);
      if (next === null || s > slope || (s === slope && o.cost > next.cost)) {
        next = { ...o, at };
        slope = s;
      }
    });
    if (next === null) return steps;
    const found: Option & { at: number } = next;
    steps.push({ of, to: found.at, cost: found.cost - now.cost, gain: found.gain - now.gain });
    now = found;
  }
}

/** A first good choice: hull steps in order of efficiency while they fit. */
function greedy(classes: readonly (readonly Option[])[], ceiling: number): { readonly gain: number } {
  const start = classes.map(cheapest);
  let cost = start.reduce((sum, o) => sum + o.cost, 0);
  let gain = start.reduce((sum, o) => sum + o.gain, 0);
  const stuck = new Set<number>();
  for (const step of increments(classes)) {
    if (stuck.has(step.of) || cost + step.cost > ceiling) {
      stuck.add(step.of);
      continue;
    }
    cost += step.cost;
    gain += step.gain;
  }
  return { gain };
}
