import { describe, expect, test } from 'vitest';
import { resizedPlan, shiftedJob, splitPlan } from '#core/bays/rules/changes.ts';
import type { Board, JobPlan, JobSpec } from '#core/bays/rules/model.ts';
import { movedPlan } from '#core/bays/rules/move.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { faultsOfBoard } from '#core/bays/rules/validate.ts';
import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import { board, job, open, person, place, plansOf, stage } from './boards.ts';

const HOURS = open([0, 300], [360, 2000]);
const J = job('j', [stage('s', 60), stage('t', 30)]);

/** A car on a board with two bays and people, its plan changed by hand, and everything to be planned again. */
function byHand(change: (b: Board, j: JobSpec, plan: JobPlan) => JobPlan | null, pace = 1_000_000): Board {
  const plain = board({
    places: [place('one', 'correction'), place('two', 'correction')],
    technicians: [person('ann', HOURS, pace), person('ben', HOURS, pace)],
    jobs: new Map([[J.id, J]]),
  });
  const wish = { people: null, holdUntilMin: 0, stages: J.stages };
  const placed = placeJob(plain, occupancyOf(plain, new Set(), 0), J, wish);
  const changed = placed && change({ ...plain, plans: plansOf([placed.plan]) }, J, placed.plan);
  if (!changed) throw new Error('no plan');
  return { ...plain, plans: plansOf([changed]) };
}
/** Bay one closes: whatever is there has to be planned again. */
const shut = (b: Board): Board => ({
  ...b,
  places: b.places.map((p) => (p.id === 'one' ? { ...p, closed: [{ startMin: 0, endMin: 2000 }] } : p)),
});
const workOf = (plan: JobPlan | null | undefined, id = 's') =>
  plan?.pieces.filter((p) => p.stageId === id).map((p) => [p.personIds[0], p.startMin, p.endMin]);
const again = (b: Board) => replan(b, { seed: 1, iterations: 40, consent: new Set() }).plans.get(J.id);
const S = 's' as StageId;
const BEN = 'ben' as PersonId;
const longer = (b: Board, j: JobSpec, plan: JobPlan) => resizedPlan(b, j, plan, { stageId: S, endMin: 105 });
const shared = (b: Board, j: JobSpec, plan: JobPlan) =>
  splitPlan(b, j, plan, { stageId: S, atMin: 20, personId: BEN });

test('a stage that was paused is planned again with what is left of it, and never with nothing', () => {
  const left = (workedMin: number) => {
    const paused = { ...stage('s', 60), state: 'paused' as const, workedMin };
    const j = { ...J, stages: [paused, stage('t', 30)] };
    const b = board({
      places: [place('one', 'correction')],
      technicians: [person('ann', HOURS)],
      jobs: new Map([[j.id, j]]),
    });
    return workOf(placerOf(b, j)({ notBeforeMin: 0 })?.plan)?.map(
      ([, from, to]) => Number(to) - Number(from),
    );
  };
  expect(left(45)).toEqual([15]);
  expect(left(20)).toEqual([40]);
  expect(left(80)).toEqual([15]);
});

describe('an end that was drawn', () => {
  test('is kept by a re-plan, at any pace', () => {
    for (const pace of [1_000_000, 700_000, 1_370_000]) {
      const b = byHand(longer, pace);
      const drawn = workOf(b.plans.get(J.id));
      const plan = again(shut(b));
      expect(plan?.pieces[0]?.bayId).toBe('two');
      expect(workOf(plan)).toEqual(drawn);
    }
  });

  test('is kept by a move, over the break as well', () => {
    const b = byHand(longer);
    const wish = { stageIds: [S], bayId: 'two' as BayId, startMin: 250, personId: null };
    const plan = b.plans.get(J.id) as JobPlan;
    expect(workOf(movedPlan(b, J, plan, wish))).toEqual([['ann', 250, 415]]);
    expect(workOf(shiftedJob(b, J, plan, wish))).toEqual([['ann', 250, 415]]);
  });
});

describe('a stage that was cut in two', () => {
  test('stays so in a re-plan, each part with whom it was given to', () => {
    const plan = again(shut(byHand(shared)));
    expect(plan?.pieces[0]?.bayId).toBe('two');
    expect(workOf(plan)).toEqual([
      ['ann', 0, 20],
      ['ben', 20, 60],
    ]);
  });

  test('goes to somebody else in both parts where it would be late otherwise', () => {
    const b = shut(byHand(shared));
    const technicians = b.technicians.map((t) => (t.id === BEN ? { ...t, hours: open([1500, 2000]) } : t));
    const jobs = new Map([[J.id, { ...J, promiseMin: 200 }]]);
    expect(workOf(again({ ...b, technicians, jobs }))).toEqual([
      ['ann', 0, 20],
      ['ann', 20, 60],
    ]);
  });

  test('stays so where it is moved, and is one again where one person takes it', () => {
    const b = byHand(shared);
    const plan = b.plans.get(J.id) as JobPlan;
    const wish = { stageIds: [S], bayId: 'two' as BayId, startMin: 400, personId: null };
    const moved = movedPlan(b, J, plan, wish);
    expect(workOf(moved)).toEqual([
      ['ann', 400, 420],
      ['ben', 420, 460],
    ]);
    expect(workOf(shiftedJob(b, J, plan, wish))).toEqual(workOf(moved));
    expect(workOf(movedPlan(b, J, plan, { ...wish, personId: BEN }))).toEqual([['ben', 400, 460]]);
  });
});

test('what nobody set is planned as long as its work, and no longer', () => {
  const b = byHand((_b, _j, plan) => plan);
  expect(workOf(again(shut(b)))).toEqual([['ann', 0, 60]]);
  expect(faultsOfBoard({ ...shut(b), plans: plansOf([again(shut(b)) as JobPlan]) })).toEqual([]);
});
