import { describe, expect, test } from 'vitest';
import { asksFirst } from '#core/bays/rules/consent.ts';
import type { JobPlan } from '#core/bays/rules/model.ts';
import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import { board, job, person, place, stage } from './boards.ts';

const BOARD = board({ places: [place('c', 'correction')], technicians: [person('a')] });
/** Promised for minute 100. */
const CAR = job('j', [stage('s', 60)], {
  ...{ promiseMin: 100, confirmed: true },
  start: { kind: 'agreed', dropOffMin: 20 },
});
const plan = (arriveMin: number, endMin: number): JobPlan => ({
  jobId: CAR.id,
  stays: [{ bayId: 'c' as BayId, arriveMin, leaveMin: 400 }],
  pieces: [
    {
      ...{ stageId: 's' as StageId, bayId: 'c' as BayId, personIds: ['a' as PersonId] },
      ...{ startMin: endMin - 60, endMin, dwellEndMin: endMin },
    },
  ],
});
const asks = (old: JobPlan, fresh: JobPlan): boolean => asksFirst(BOARD, CAR, old, fresh);

describe('a customer is asked before another plan', () => {
  test('breaks a promise that was kept, and not before one that still keeps it', () => {
    expect(asks(plan(20, 90), plan(20, 101))).toBe(true);
    expect(asks(plan(20, 90), plan(20, 100))).toBe(false);
  });

  test('makes a late car later still, and not before one that leaves it as late or less', () => {
    expect(asks(plan(20, 120), plan(20, 121))).toBe(true);
    expect(asks(plan(20, 120), plan(20, 120))).toBe(false);
    expect(asks(plan(20, 120), plan(20, 110))).toBe(false);
  });

  test('moves the drop-off, also of a car that is late already', () => {
    expect(asks(plan(20, 120), plan(30, 110))).toBe(true);
  });
});
