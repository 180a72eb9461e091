import { describe, expect, test } from 'vitest';
import type { Board, JobPlan } from '#core/bays/rules/model.ts';
import { checkMove } from '#core/bays/rules/move.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { faultsOfJob } from '#core/bays/rules/validate.ts';
import type { BayId, JobId, StageId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { board, job, open, person, place, plansOf, stage, standing } from './boards.ts';
import { later, planned } from './randomDay.ts';

const S = 's' as StageId;
const BAY = 'bay' as BayId;
/** A bay, a yard for one, and a car that was to be worked on at once. */
function oneCar(more: Partial<Parameters<typeof job>[2]> = {}, plans: readonly JobPlan[] = []): Board {
  const j = job('j', [stage('s', 60)], {
    start: { kind: 'agreed', dropOffMin: 10 },
    promiseMin: 600,
    ...more,
  });
  const work = {
    stageId: S,
    bayId: BAY,
    personIds: ['ann' as never],
    startMin: 20,
    endMin: 80,
    dwellEndMin: 80,
  };
  const plan: JobPlan = {
    jobId: j.id,
    stays: [{ bayId: BAY, arriveMin: 10, leaveMin: 600 }],
    pieces: [work],
  };
  return board({
    places: [place('bay', 'correction'), place('yard', 'yard')],
    technicians: [person('ann')],
    moveMin: 10,
    jobs: new Map([[j.id, j]]),
    plans: plansOf([plan, ...plans]),
  });
}
const moveTo = (b: Board, startMin: number) => {
  const j = b.jobs.get('j' as JobId);
  const plan = b.plans.get('j' as JobId);
  if (!j || !plan) throw new Error('no job');
  const done = checkMove(b, j, plan, { stageIds: [S], bayId: BAY, startMin, personId: null });
  return done.ok
    ? {
        stays: done.plan.stays.map((s) => [s.bayId, s.arriveMin, s.leaveMin]),
        asks: done.consent.map((f) => f.rule),
      }
    : done.fault.rule;
};

describe('the stays of a car whose work is moved', () => {
  test('are where it is, while nobody else needs the place', () => {
    expect(moveTo(oneCar(), 300)).toEqual({ stays: [['bay', 10, 600]], asks: [] });
  });

  test('lie in the yard before the work, where another car is in the bay until then', () => {
    expect(moveTo(oneCar({}, [standing('x', 'bay', 100, 200)]), 300)).toEqual({
      stays: [
        ['yard', 10, 290],
        ['bay', 290, 600],
      ],
      asks: [],
    });
  });

  test('lie in the yard after the work, where another car comes into the bay', () => {
    expect(moveTo(oneCar({}, [standing('x', 'bay', 400, 500)]), 300)).toEqual({
      stays: [
        ['bay', 10, 360],
        ['yard', 360, 600],
      ],
      asks: [],
    });
  });

  test('name the car that is in the way, where the yard is full too', () => {
    const full = [standing('x', 'bay', 400, 500), standing('y', 'yard', 0, 900)];
    expect(moveTo(oneCar({}, full), 300)).toBe('bayTaken');
  });

  test('begin sooner where the work is sooner, and the customer is asked', () => {
    const b = oneCar({ start: { kind: 'agreed', dropOffMin: 100 } });
    const late: Board = {
      ...b,
      plans: plansOf(
        [...b.plans.values()].map((p) => ({ ...p, stays: p.stays.map((s) => ({ ...s, arriveMin: 100 })) })),
      ),
    };
    expect(moveTo(late, 60)).toEqual({ stays: [['bay', 50, 600]], asks: ['dropOffMoved'] });
  });

  test('of a car that did not come in time begin when its work needs it, and the customer is asked', () => {
    expect(moveTo({ ...oneCar(), nowMin: 100 }, 300)).toEqual({
      stays: [['bay', 290, 600]],
      asks: ['dropOffMoved'],
    });
  });

  test('of a car that is here go on from where it stands, and what it did stays behind it', () => {
    const b = oneCar({ start: { kind: 'here', bayId: 'yard' as BayId, fromMin: 100 } });
    const plan = b.plans.get('j' as JobId) as JobPlan;
    const stays = [
      { bayId: 'yard' as BayId, arriveMin: 5, leaveMin: 150 },
      { bayId: BAY, arriveMin: 150, leaveMin: 600 },
    ];
    const here: Board = {
      ...b,
      nowMin: 100,
      plans: plansOf([
        {
          ...plan,
          stays,
          pieces: plan.pieces.map((p) => ({ ...p, startMin: 160, endMin: 220, dwellEndMin: 220 })),
        },
      ]),
    };
    expect(moveTo(here, 300)).toEqual({
      stays: [
        ['yard', 5, 290],
        ['bay', 290, 600],
      ],
      asks: [],
    });
  });

  test('are driven in opening hours', () => {
    const b = { ...oneCar({}, [standing('x', 'bay', 100, 200)]), open: open([0, 150], [400, 900]) };
    expect(moveTo(b, 405)).toBe('bayTaken');
    expect(moveTo(b, 410)).toEqual({
      stays: [
        ['yard', 10, 400],
        ['bay', 400, 600],
      ],
      asks: [],
    });
  });
});

test('an own stage in the way is named, not that the car would stand nowhere', () => {
  const stages = [stage('r', 60), stage('s', 60)];
  const j = job('j', stages);
  const piece = (id: string, startMin: number) => ({
    ...{ stageId: id as StageId, bayId: BAY, personIds: ['ann' as never] },
    ...{ startMin, endMin: startMin + 60, dwellEndMin: startMin + 60 },
  });
  const plan: JobPlan = {
    jobId: j.id,
    stays: [{ bayId: BAY, arriveMin: 100, leaveMin: 300 }],
    pieces: [piece('r', 100), piece('s', 200)],
  };
  const b = board({
    places: [place('bay', 'correction'), place('other', 'correction')],
    technicians: [person('ann'), person('ben')],
    jobs: new Map([[j.id, j]]),
    plans: plansOf([plan]),
  });
  const wish = { stageIds: [S], bayId: 'other' as BayId, startMin: 110, personId: null };
  expect(checkMove(b, j, plan, wish)).toMatchObject({ ok: false, fault: { rule: 'stageOrder' } });
});

test('on 400 days gone wrong, the last block of a car can be moved wherever the whole car could be placed with it', () => {
  let moved = 0;
  for (let seed = 1; seed <= 400; seed += 1) {
    const random = seeded(seed);
    const b = later(planned(random), random);
    for (const j of b.jobs.values()) {
      const plan = b.plans.get(j.id) as JobPlan;
      const waiting = j.stages.filter((s) => s.state === 'planned');
      const paused = j.stages.some((s) => s.state === 'paused');
      if (j.start.kind !== 'here' || waiting.length !== 1 || paused) continue;
      const found = placerOf(b, j)({ notBeforeMin: b.nowMin, holdUntilMin: j.promiseMin ?? 0 });
      const [stageIds, piece] = [waiting.map((s) => s.id), found?.plan.pieces.at(-1)];
      if (!found || !piece || faultsOfJob(b, j, found.plan).some((f) => f.rule !== 'promiseMissed')) continue;
      moved += 1;
      const { bayId, startMin, personIds } = piece;
      const done = checkMove(b, j, plan, { stageIds, bayId, startMin, personId: personIds[0] ?? null });
      expect({ seed, at: j.id, fault: done.ok ? null : done.fault.rule }).toEqual({
        seed,
        at: j.id,
        fault: null,
      });
    }
  }
  expect(moved).toBeGreaterThan(100);
});
