/** One finished stage of a kind and what it used of one material: planned and really drawn, base units; who worked on it and the paint it met. */
export type PastDraw = {
  readonly planned: number;
  readonly drawn: number;
  /** '' where nobody's work is written down. */
  readonly technician: string;
  readonly condition: string;
};

/** By how much one thing moves the plan, and from how many stages that is known. */
export type LearnedFactor = { readonly factor: number; readonly n: number };
export type LearnedDraw = {
  readonly factor: number;
  /** Of all stages of the kind; then who works and the paint, each beside that. */
  readonly stage: LearnedFactor;
  readonly technician: LearnedFactor;
  readonly condition: LearnedFactor;
};

/**
 * So many imagined stages stand behind every factor: of a stage they went to plan, of a technician and a condition they
 * used what the stage usually does. Common practice, no source.
 */
export const PRIOR_STAGES = 5;
/** A stage that used more than this many times its plan counts as that: a spilt bottle is no lesson. Common practice, no source. */
const MOST_TIMES = 4;
/** Technician and condition are fitted in turn; each round closes most of what the last left open. */
const ROUNDS = 8;

type Groups = ReadonlyMap<string, LearnedFactor>;
const PLAIN: LearnedFactor = { factor: 1, n: 0 };

/**
 * How much stages of one kind really use of a material, as a factor on the plan: the kind's own, times how this
 * technician and this condition differ from it. Each is a ratio of sums, drawn over expected, with `PRIOR_STAGES`
 * stages of average size at 1 added to both, so that few stages move it little and somebody new gets the kind's mean.
 * @source credibility of a ratio, H. Bühlmann & A. Gisler, A Course in Credibility Theory (2005) ch. 3; the two
 * fitted in turn as in R. A. Bailey & L. J. Simon, ASTIN Bulletin 1 (1960) 192–217, both from memory
 * @example learnDraw([{ planned: 500, drawn: 700, technician: '', condition: '' }], '', '').factor //=> 1.0666…
 */
export function learnDraw(past: readonly PastDraw[], technician: string, condition: string): LearnedDraw {
  const rows = past
    .filter((p) => p.planned > 0)
    .map((p) => ({ ...p, drawn: Math.min(p.drawn, MOST_TIMES * p.planned) }));
  const planned = rows.map((r) => r.planned);
  const stage = pulled(rows, planned);
  const mean = sumOf(rows.map((r) => r.drawn)) / Math.max(1, sumOf(planned));
  let byTechnician: Groups = new Map();
  let byCondition: Groups = new Map();
  for (let round = 0; round < ROUNDS; round += 1) {
    byTechnician = fitGroups(rows, 'technician', (r) => mean * r.planned * fitted(byCondition, r.condition));
    byCondition = fitGroups(rows, 'condition', (r) => mean * r.planned * fitted(byTechnician, r.technician));
  }
  const who = of(byTechnician, technician);
  const paint = of(byCondition, condition);
  return {
    factor: stage.factor * who.factor * paint.factor,
    stage,
    technician: who,
    condition: paint,
  };
}

/** Of the stage asked about; 1 where nobody is known for it: it may be anybody. */
function of(groups: Groups, name: string): LearnedFactor {
  return name === '' ? PLAIN : (groups.get(name) ?? PLAIN);
}

/** Of a past stage, also of those nobody's work is written down for: what they used is no sign of the other thing. */
function fitted(groups: Groups, name: string): number {
  return groups.get(name)?.factor ?? 1;
}

/**
 * Each group's factor; over all past stages they come to 1, those of nobody a group like the others, so that what all
 * share stays with the stage.
 */
function fitGroups(
  rows: readonly PastDraw[],
  by: 'technician' | 'condition',
  expected: (row: PastDraw) => number,
): Groups {
  const found = new Map<string, LearnedFactor>();
  let [before, after] = [0, 0];
  for (const [name, group] of Map.groupBy(rows, (r) => r[by])) {
    const plans = sumOf(group.map((r) => r.planned));
    const learned = pulled(group, group.map(expected));
    found.set(name, learned);
    before += plans;
    after += plans * learned.factor;
  }
  for (const [name, { factor, n }] of found) found.set(name, { factor: (factor * before) / after, n });
  return found;
}

/** Drawn over expected, pulled towards 1 by imagined stages of the group's own size. */
function pulled(rows: readonly PastDraw[], expected: readonly number[]): LearnedFactor {
  const n = rows.length;
  const sum = sumOf(expected);
  if (sum <= 0) return { factor: 1, n };
  const prior = (sum / n) * PRIOR_STAGES;
  return { factor: (prior + sumOf(rows.map((r) => r.drawn))) / (prior + sum), n };
}

function sumOf(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
