import { describe, expect, test } from 'vitest';
import type { Board, JobPlan, JobSpec, Place } from '#core/bays/rules/model.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { faultsOfBoard } from '#core/bays/rules/validate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { BayKind } from '#core/shared/vocabulary.ts';
import { board, job, person, place, plansOf, stage } from './boards.ts';

/** A confirmed car worked on for a while as soon as it comes, promised for its end or later. */
type Car = {
  readonly id: string;
  readonly bay: string;
  readonly at: number;
  readonly min: number;
  readonly promise?: number;
  readonly kinds?: readonly BayKind[];
  /** It stands there since minute 0 and is still being worked on. */
  readonly runs?: boolean;
};

function specOf(car: Car): JobSpec {
  const running = { state: 'inWork', workedMin: car.min - 1 } as const;
  return job(
    car.id,
    [stage(`${car.id}s`, car.min, { ...(car.runs ? running : {}), bayKinds: car.kinds ?? ['correction'] })],
    {
      number: car.id.charCodeAt(0),
      confirmed: true,
      promiseMin: car.promise ?? car.at + car.min,
      start: car.runs
        ? { kind: 'here', bayId: car.bay as BayId, fromMin: car.at + car.min }
        : { kind: 'agreed', dropOffMin: car.at },
    },
  );
}

function planOf(car: Car): JobPlan {
  const end = car.at + car.min;
  const piece = {
    ...{ stageId: `${car.id}s` as StageId, bayId: car.bay as BayId, personIds: [`p${car.id}` as PersonId] },
    ...{ startMin: car.at, endMin: end, dwellEndMin: end },
  };
  const stay = { bayId: car.bay as BayId, arriveMin: car.at, leaveMin: Math.max(end, car.promise ?? end) };
  return { jobId: car.id as JobId, stays: [stay], pieces: [piece] };
}

function shop(places: readonly Place[], cars: readonly Car[], nowMin = 0): Board {
  return board({
    places,
    technicians: cars.map((c) => person(`p${c.id}`)),
    jobs: new Map(cars.map((c) => [c.id as JobId, specOf(c)])),
    plans: plansOf(cars.map(planOf)),
    nowMin,
  });
}

function mended(b: Board, consent: ReadonlySet<JobId> = new Set(), iterations = 200) {
  const found = replan(b, { seed: 1, iterations, consent });
  const moved = [...found.plans].filter(([id, p]) => p !== b.plans.get(id)).map(([id]) => id);
  const hard = faultsOfBoard({ ...b, plans: found.plans })
    .map((f) => f.rule)
    .filter((r) => r !== 'promiseMissed' && r !== 'dropOffMoved');
  const [broken, asked] = [[found.before.broken, found.after.broken], found.after.asked];
  const stays = (id: string) =>
    found.plans.get(id as JobId)?.stays.map((s) => [s.bayId, s.arriveMin, s.leaveMin]);
  return { moved, hard, broken, asked, stays };
}

const C = place('c', 'correction');
/** Runs over into what comes next: until minute 200 as it looks now. */
const LONG: Car = { id: 'a', bay: 'c', at: 0, min: 200, promise: 200, runs: true };

describe('cars planned in one place at once, after one ran over', () => {
  test('are set apart: the one that has not come is asked to come later, and nobody else is touched', () => {
    const b = shop(
      [C],
      [LONG, { id: 'b', bay: 'c', at: 100, min: 60 }, { id: 'd', bay: 'c', at: 400, min: 50 }],
      50,
    );
    const found = mended(b);
    expect(found).toMatchObject({ moved: ['b'], hard: [], broken: [2, 0], asked: 1 });
    expect(found.stays('b')).toEqual([['c', 200, 260]]);
  });

  test('need nobody to be asked where the yard has room, or another bay', () => {
    const cars: readonly Car[] = [LONG, { id: 'b', bay: 'c', at: 100, min: 60, promise: 400 }];
    const yard = mended(shop([C, place('y', 'yard')], cars, 50));
    expect(yard).toMatchObject({ moved: ['b'], hard: [], broken: [2, 0], asked: 0 });
    expect(yard.stays('b')).toEqual([
      ['y', 100, 200],
      ['c', 200, 260],
      ['y', 260, 400],
    ]);
    const bay = mended(shop([C, place('e', 'correction')], cars, 50));
    expect(bay).toMatchObject({ moved: ['b'], hard: [], asked: 0 });
  });

  test('need nobody to be asked where a third car can make room for one of them', () => {
    const b = shop(
      [C, place('e', 'correction'), place('w', 'wash')],
      [
        LONG,
        { id: 'b', bay: 'c', at: 100, min: 60 },
        { id: 'd', bay: 'e', at: 90, min: 90, kinds: ['correction', 'wash'] },
      ],
      50,
    );
    const found = mended(b);
    expect(found).toMatchObject({ hard: [], broken: [2, 0], asked: 0 });
    expect(found.stays('d')).toEqual([['w', 90, 180]]);
  });

  test('cost as few changed promises as can be: one long car rather than two short ones', () => {
    const both = [
      place('c', 'correction'),
      { ...place('e', 'correction'), closed: [{ startMin: 0, endMin: 900 }] },
    ];
    // Bay e has closed: its long car and the two short ones in bay c cannot all be served by bay c.
    const b = shop(both, [
      { id: 'x', bay: 'e', at: 100, min: 300 },
      { id: 'y', bay: 'c', at: 100, min: 50 },
      { id: 'z', bay: 'c', at: 200, min: 50 },
    ]);
    expect(mended(b)).toMatchObject({ moved: ['x'], hard: [], broken: [1, 0], asked: 1 });
  });

  test('stay as they are where the customer is left as promised, and the board says so', () => {
    const b = shop([C], [LONG, { id: 'b', bay: 'c', at: 100, min: 60 }], 50);
    const found = replan(b, { seed: 1, iterations: 50, consent: new Set(), fixed: new Set(['b' as JobId]) });
    expect(found.plans.get('b' as JobId)).toBe(b.plans.get('b' as JobId));
    expect(found.after.broken).toBe(1);
  });
});

test('a car that is only late to come is left as agreed: it may come any minute', () => {
  const late: Car = { id: 'b', bay: 'c', at: 90, min: 60, promise: 400 };
  const b = shop([C], [late], 100);
  const work = planOf({ ...late, at: 120 }).pieces;
  expect(mended({ ...b, plans: plansOf([{ ...planOf(late), pieces: work }]) }).moved).toEqual([]);
});

test('no promise that holds is broken to make another one less late, unless that was agreed to', () => {
  const [b, d] = [
    { id: 'b', bay: 'c', at: 0, min: 60, promise: 50 },
    { id: 'd', bay: 'c', at: 0, min: 60, promise: 110 },
  ] as const;
  const stay = (bayId: string, arriveMin: number, leaveMin: number) => ({
    bayId: bayId as BayId,
    arriveMin,
    leaveMin,
  });
  const first = { ...planOf(d), stays: [stay('c', 0, 60), stay('y', 60, 110)] };
  const second = { ...planOf({ ...b, at: 60 }), stays: [stay('y', 0, 60), stay('c', 60, 120)] };
  const both = { ...shop([C, place('y', 'yard', 2)], [b, d]), plans: plansOf([first, second]) };
  expect(mended(both).moved).toEqual([]);
  expect(mended(both, new Set(['d'] as JobId[]))).toMatchObject({ moved: ['d', 'b'], asked: 0 });
});
