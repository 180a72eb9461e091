import { seeded } from '#core/shared/random.ts';

/**
 * A made-up shop's past, by code that shares nothing with the model it tests: every job has its own effect on all of
 * its stages, single stages have heavy tails (Student's t with 5 degrees of freedom), technicians and stage kinds
 * differ, worse paint takes longer than planned, and the whole shop drifts by 8 % a year.
 */
export type MadeStage = {
  readonly kind: 'wash' | 'clay' | 'cut' | 'refine' | 'protect';
  readonly estimated: number;
  readonly actual: number;
};
export type MadeJob = {
  readonly id: string;
  readonly day: number;
  readonly technician: string;
  readonly condition: 'light' | 'moderate' | 'heavy';
  readonly stages: readonly MadeStage[];
};

const KINDS = ['wash', 'clay', 'cut', 'refine', 'protect'] as const;
const PLAN = { wash: 45, clay: 32, cut: 240, refine: 210, protect: 40 } as const;
const KIND_EFFECT = { wash: -0.05, clay: 0.08, cut: 0.12, refine: 0.02, protect: -0.1 } as const;
const WORSE = { light: -0.06, moderate: 0, heavy: 0.1 } as const;
const PEOPLE = [
  ['ostler', -0.08],
  ['calder', 0.03],
  ['brink', 0.1],
  ['merrow', 0],
] as const;

export function madeJobs(count: number, seed: number): MadeJob[] {
  const random = seeded(seed);
  const gauss = (): number => {
    let sum = 0;
    for (let i = 0; i < 12; i += 1) sum += random();
    return sum - 6;
  };
  const heavyTail = (): number => {
    let chi = 0;
    for (let i = 0; i < 5; i += 1) chi += gauss() ** 2;
    return gauss() / Math.sqrt(chi / 5);
  };
  return Array.from({ length: count }, (_, n) => {
    const day = (n * 730) / count;
    const [technician, skill] = PEOPLE[Math.floor(random() * PEOPLE.length)] ?? PEOPLE[0];
    const draw = random();
    const condition = draw < 0.3 ? 'light' : draw < 0.75 ? 'moderate' : 'heavy';
    const own = 0.2 * gauss();
    const drift = (0.08 * day) / 365;
    const stages = KINDS.filter((k) => k !== 'cut' || condition !== 'light').map((kind): MadeStage => {
      const estimated = PLAN[kind] * (0.7 + 0.6 * random());
      const log = KIND_EFFECT[kind] + skill + WORSE[condition] + own + drift + 0.18 * heavyTail();
      return { kind, estimated, actual: estimated * Math.exp(log) };
    });
    return { id: `job${n}`, day, technician, condition, stages };
  });
}
