import { describe, expect, test } from 'vitest';
import type { Board, JobPlan, JobSpec, Piece, StageSpec, Stay } from '#core/bays/rules/model.ts';
import { faultsOfBoard, faultsOfJob } from '#core/bays/rules/validate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { TextKey } from '#core/shared/text/en.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { ruleSentence } from '#core/shared/text/planRule.ts';
import { say, type TextValues } from '#core/shared/text/say.ts';
import { PLAN_RULES, type PlanRule } from '#core/shared/views/plan.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { board, busy, job, open, person, place, plansOf, stage, standing } from './boards.ts';

/** Shop 0–500 and 600–1000, desk 20–480 and 620–980; a works all of it, b in the morning and washes only. */
const BASE = board({
  nowMin: 10,
  places: [place('w', 'wash'), place('c', 'correction', 1, 5), place('yard', 'yard', 1)],
  technicians: [person('a', open([0, 500], [600, 1000])), person('b', open([0, 300]), 1_000_000, ['wash'])],
  open: open([0, 500], [600, 1000]),
  desk: open([20, 480], [620, 980]),
  moveMin: 5,
});
const JOB = job('j', [
  stage('s1', 50, { kind: 'wash', skill: 'wash', bayKinds: ['wash'] }),
  stage('s2', 100, { dwellMin: 40 }),
]);
const stay = (bay: string, arriveMin: number, leaveMin: number): Stay => ({
  bayId: bay as BayId,
  arriveMin,
  leaveMin,
});
const piece = (s: string, bay: string, who: string, startMin: number, endMin: number, dwell = 0): Piece => ({
  stageId: s as StageId,
  bayId: bay as BayId,
  personIds: who === '' ? [] : [who as PersonId],
  startMin,
  endMin,
  dwellEndMin: endMin + dwell,
});
/** Washed 30–80, driven over, cut 90–190 with 40 minutes of dwell, collected at 300. */
const GOOD: JobPlan = {
  jobId: JOB.id,
  stays: [stay('w', 20, 80), stay('c', 80, 300)],
  pieces: [piece('s1', 'w', 'a', 30, 80), piece('s2', 'c', 'a', 90, 190, 40)],
};
type Broken = { readonly b?: Partial<Board>; readonly j?: Partial<JobSpec>; readonly p?: Partial<JobPlan> };
const [wash, cut] = GOOD.pieces as readonly [Piece, Piece];
const pieces = (...list: Piece[]): Broken => ({ p: { pieces: list } });

/** The good plan begins to cut ten minutes after the wash. */
function gap(more: Partial<StageSpec>): Broken {
  return { j: { stages: [{ ...JOB.stages[0], ...more } as StageSpec, JOB.stages[1] as StageSpec] } };
}

/** The second stage is of a kind, and work of another kind goes on in a bay beside it. */
function beside(own: StageKind, theirs: StageKind): Broken {
  const other = job('x', [stage('x-s', 50, { kind: theirs })], { who: 'Dev Ostler' });
  const plans = plansOf([{ jobId: other.id, stays: [], pieces: [piece('x-s', 'near', 'c', 120, 160, 20)] }]);
  return {
    b: {
      places: [
        ...BASE.places.map((p) => ({ ...p, dustWith: ['near' as BayId] })),
        place('near', 'protection'),
      ],
      plans,
      jobs: new Map([[other.id, other]]),
    },
    j: { stages: [JOB.stages[0] as StageSpec, { ...(JOB.stages[1] as StageSpec), kind: own }] },
  };
}

/** Every rule with a plan that breaks it, one thing changed. */
const BROKEN: Readonly<Record<Exclude<PlanRule, 'alreadyDone' | 'inThePast'>, Broken>> = {
  stageMissing: pieces(wash),
  stageOrder: pieces({ ...wash, startMin: 60, endMin: 110, dwellEndMin: 110 }, cut),
  noPlace: { p: { stays: [stay('w', 20, 80), stay('c', 85, 300)] } },
  bayTaken: { b: { plans: plansOf([standing('x', 'c', 250, 400)]) } },
  yardFull: {
    b: { plans: plansOf([standing('x', 'yard', 250, 400)]) },
    p: { stays: [stay('w', 20, 80), stay('c', 80, 240), stay('yard', 240, 300)] },
  },
  noRoomToPass: {
    b: {
      places: BASE.places.filter((p) => p.kind !== 'yard'),
      plans: plansOf([{ jobId: 'x' as JobId, stays: [stay('c', 30, 80), stay('w', 80, 200)], pieces: [] }]),
    },
  },
  bayClosed: {
    b: { places: BASE.places.map((p) => ({ ...p, closed: [{ startMin: 280, endMin: 320 }] })) },
  },
  bayKind: pieces({ ...wash, bayId: 'c' as BayId }, cut),
  pieceOutsideStay: { p: { stays: [stay('w', 20, 80), stay('c', 80, 220)] } },
  tooSoonAfterArrival: pieces(wash, { ...cut, startMin: 85, endMin: 185, dwellEndMin: 225 }),
  personBusy: { b: { plans: plansOf([busy('x', 'a', 100, 120)]) } },
  personSkill: pieces(wash, { ...cut, personIds: ['b' as PersonId] }),
  personAway: {
    b: { technicians: [person('a', open([100, 500], [600, 1000])), BASE.technicians[1] as never] },
  },
  crewShort: pieces(wash, { ...cut, personIds: [] }),
  labourShort: pieces(wash, { ...cut, endMin: 180, dwellEndMin: 220 }),
  notSplittable: {
    j: { stages: [JOB.stages[0] as never, stage('s2', 100, { dwellMin: 40, splittable: false })] },
    p: {
      stays: [stay('w', 20, 80), stay('c', 80, 900)],
      pieces: [wash, piece('s2', 'c', 'a', 450, 650, 40)],
    },
  },
  dwellShort: pieces(wash, { ...cut, dwellEndMin: 210 }),
  gapShort: gap({ leastGapMin: 11 }),
  gapLong: gap({ mostGapMin: 9 }),
  dustOnCoating: beside('cut', 'cure'),
  coatingInDust: beside('protect', 'cut'),
  departureClosed: {
    p: {
      stays: [stay('w', 20, 550), stay('c', 550, 900)],
      pieces: [wash, piece('s2', 'c', 'a', 600, 700, 40)],
    },
  },
  dropOffClosed: { p: { stays: [stay('w', 15, 80), stay('c', 80, 300)] } },
  pickUpClosed: { p: { stays: [stay('w', 20, 80), stay('c', 80, 490)] } },
  dropOffMoved: { j: { start: { kind: 'agreed', dropOffMin: 25 } } },
  promiseMissed: { j: { promiseMin: 200 } },
  dropOffPassed: { b: { nowMin: 25 } },
};

function brokenBy(change: Broken) {
  const j = { ...JOB, ...change.j };
  const all = { ...BASE, ...change.b };
  const others = [...all.plans.keys()].map((id) => [id, job(id, [], { who: 'Dev Ostler' })] as const);
  const b = { ...all, jobs: new Map([...others, ...all.jobs, [JOB.id, j] as const]) };
  return { b, j, p: { ...GOOD, ...change.p } };
}
function faultsOf(change: Broken = {}) {
  const { b, j, p } = brokenBy(change);
  return faultsOfJob(b, j, p).map((f) => f.rule);
}

describe('the validator', () => {
  test('finds nothing in a plan that keeps every rule', () => {
    expect(faultsOf()).toEqual([]);
  });

  test.each(Object.entries(BROKEN))('names %s in a plan that breaks it', (rule, change) => {
    expect(faultsOf(change)).toContain(rule);
  });

  test.each(Object.entries(BROKEN))(
    'says of %s whose car it is, and leaves no gap in the sentence',
    (rule, change) => {
      const t = (key: TextKey, values?: TextValues): string => say('en', key, values);
      const { b, j, p } = brokenBy(change);
      for (const fault of faultsOfJob(b, { ...j, who: 'Marit Vane' }, p).filter((f) => f.rule === rule)) {
        const sentence = ruleSentence(t, PLAIN_MANNER, fault, 0);
        expect(sentence).toContain('Marit Vane');
        expect(sentence).not.toMatch(/ {2}|undefined|^ | \./);
      }
    },
  );

  describe('what is in the way is said with its stretch, its stage and the stretch that it is in the way of', () => {
    const t = (key: TextKey, values?: TextValues): string => say('en', key, values);
    const work = (id: string, who: string, startMin: number, endMin: number): JobPlan => {
      const piece = { stageId: `${id}1` as StageId, bayId: 'c' as BayId, personIds: [who as PersonId] };
      const stays = [{ bayId: 'c' as BayId, arriveMin: startMin - 10, leaveMin: endMin + 100 }];
      return { jobId: id as JobId, stays, pieces: [{ ...piece, startMin, endMin, dwellEndMin: endMin }] };
    };
    const one = job('u', [stage('u1', 60, { kind: 'cut' })], { who: 'Marit Vane', promiseMin: 660 });
    const two = job('v', [stage('v1', 60, { kind: 'refine' })], { who: 'Dev Ostler' });
    const said = (own: JobPlan, other: JobPlan): readonly string[] => {
      const b = board({
        places: [place('c', 'correction')],
        technicians: [person('a'), person('b')],
        jobs: new Map([one, two].map((j) => [j.id, j])),
        plans: plansOf([other]),
      });
      return faultsOfJob(b, one, own).map((f) => ruleSentence(t, PLAIN_MANNER, f, 0));
    };
    const stood = (plan: JobPlan, leaveMin: number): JobPlan => ({
      ...plan,
      stays: plan.stays.map((s) => ({ ...s, leaveMin })),
    });

    test('a bay that is taken while it is worked on', () => {
      expect(said(work('u', 'a', 60, 120), work('v', 'b', 100, 160))[0]).toBe(
        'c is taken by Dev Ostler from Thu 01:30 to Thu 04:20, for the refine. Marit Vane would be there for the cut, from Thu 00:50 to Thu 03:40.',
      );
    });

    test('a bay that another car comes into before this one is collected', () => {
      expect(said(stood(work('u', 'a', 60, 120), 660), work('v', 'b', 500, 560))[0]).toBe(
        'c is taken by Dev Ostler from Thu 08:10 to Thu 11:00, for the refine. Marit Vane would stand there to be collected, from Thu 00:50 to Thu 11:00.',
      );
    });

    test('somebody who is at another car', () => {
      const other = { ...work('v', 'a', 100, 160), stays: [] };
      expect(said(work('u', 'a', 60, 120), other)).toEqual([
        'a does the refine of Dev Ostler from Thu 01:40 to Thu 02:40 and cannot do the cut of Marit Vane from Thu 01:00 to Thu 02:00.',
      ]);
    });
  });

  test('calls nothing of a job that is over a fault', () => {
    const { b, j, p } = brokenBy({ b: { nowMin: 25 }, j: { start: { kind: 'over' } } });
    expect(faultsOfJob(b, j, p)).toEqual([]);
  });

  test('lets a gap that has passed by rest once the stage before it is over', () => {
    const [first, second] = JOB.stages as readonly [StageSpec, StageSpec];
    const stages = [{ ...first, state: 'done' as const, mostGapMin: 9 }, second];
    const [from, at] = [gap({}).j, { stages, start: here('c') }];
    expect(faultsOf({ b: { nowMin: 89 }, j: { ...from, ...at } })).toContain('gapLong');
    expect(faultsOf({ b: { nowMin: 90 }, j: { ...from, ...at } })).toEqual([]);
  });

  test('knows no dust at night: what is cut over two days is cut in working hours only', () => {
    // a works 0–500 and 600–1000; the coating is fresh from 500 to 600, in the night between.
    const fresh = beside('cut', 'cure');
    const plan = { jobId: 'x' as JobId, stays: [], pieces: [piece('x-s', 'near', 'c', 500, 500, 100)] };
    const j = { stages: [JOB.stages[0] as StageSpec, stage('s2', 150)] };
    const p = {
      stays: [stay('w', 20, 80), stay('c', 80, 700)],
      pieces: [wash, piece('s2', 'c', 'a', 400, 650)],
    };
    expect(faultsOf({ b: { ...fresh.b, plans: plansOf([plan]) }, j, p })).toEqual([]);
  });

  test('has a broken plan for every rule but those that a move alone can break', () => {
    expect([...Object.keys(BROKEN), 'alreadyDone', 'inThePast'].sort()).toEqual([...PLAN_RULES].sort());
  });

  test('never calls a record a fault: work that has begun is left alone, whoever did it where', () => {
    const begun = {
      ...JOB,
      stages: JOB.stages.map((s) => ({ ...s, state: 'done' as const })),
      start: here('c'),
    };
    const b = { ...BASE, nowMin: 400, jobs: new Map([[JOB.id, begun]]) };
    const odd = { ...GOOD, pieces: [{ ...wash, personIds: ['b' as PersonId], bayId: 'c' as BayId }, cut] };
    expect(faultsOfJob(b, begun, { ...odd, stays: [stay('w', 20, 80), stay('c', 80, 700)] })).toEqual([]);
  });

  test('counts a yard by its capacity: two cars in a yard of two are no fault, a third is', () => {
    const b = (n: number): Board => {
      const ids = Array.from({ length: n }, (_, i) => `x${i}`);
      const jobs = new Map(ids.map((id) => [id as JobId, job(id, [], { start: here('yard') })]));
      const places = [place('yard', 'yard', 2)];
      return { ...BASE, places, jobs, plans: plansOf(ids.map((id) => standing(id, 'yard', 20, 300))) };
    };
    expect(faultsOfBoard(b(2))).toEqual([]);
    expect(new Set(faultsOfBoard(b(3)).map((f) => f.rule))).toEqual(new Set(['yardFull']));
  });
});

function here(bay: string): JobSpec['start'] {
  return { kind: 'here', bayId: bay as BayId, fromMin: 0 };
}
