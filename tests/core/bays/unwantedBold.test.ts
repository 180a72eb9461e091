import fc from 'fast-check';
import { expect, test } from 'vitest';
import { promisesAfter, unwantedBold } from '#core/bays/rules/afterReplan.ts';
import type { Board, JobPlan } from '#core/bays/rules/model.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { board, job, person, place, stage } from './boards.ts';

const MIN_EACH = 120;
const TECHNICIAN = 'p' as PersonId;
const BAY = 'c' as BayId;

/** Cars of two hours each, worked on one after the other in this order. */
function inOrder(order: readonly number[]): JobPlan[] {
  return order.map((n, at) => {
    const [startMin, endMin] = [at * MIN_EACH, (at + 1) * MIN_EACH];
    const piece = { stageId: `s${n}` as StageId, bayId: BAY, personIds: [TECHNICIAN] };
    return {
      jobId: `j${n}` as JobId,
      stays: [{ bayId: BAY, arriveMin: startMin, leaveMin: endMin }],
      pieces: [{ ...piece, startMin, endMin, dwellEndMin: endMin }],
    };
  });
}

/** Cars in one bay, each promised so many minutes after its own end; null for one that is promised nothing. */
function queue(margins: readonly (number | null)[]): Board {
  const plans = inOrder(margins.map((_, n) => n));
  const jobs = margins.map((margin, n) => {
    const promiseMin = margin === null ? null : (n + 1) * MIN_EACH + margin;
    return job(`j${n}`, [stage(`s${n}`, MIN_EACH, { sigma: 0.3 })], {
      promiseMin,
      start: { kind: 'agreed', dropOffMin: 0 },
    });
  });
  const empty = board({ places: [place('c', 'correction')], technicians: [person('p')], horizonMin: 4000 });
  return {
    ...empty,
    jobs: new Map(jobs.map((j) => [j.id, j])),
    plans: new Map(plans.map((p) => [p.jobId, p])),
  };
}

test('the first promise that is bold and was not chosen is the one that the whole account names', () => {
  const cars = fc.integer({ min: 2, max: 5 }).chain((n) => {
    const ids = Array.from({ length: n }, (_, i) => i);
    const some = fc.subarray(ids).map((chosen) => new Set(chosen.map((i) => `j${i}` as JobId)));
    return fc.record({
      margins: fc.array(fc.option(fc.integer({ min: 0, max: 300 })), { minLength: n, maxLength: n }),
      order: fc.shuffledSubarray(ids, { minLength: n }),
      agreed: some,
      wanted: some,
    });
  });
  const seen = { bold: 0, none: 0 };
  fc.assert(
    fc.property(cars, ({ margins, order, agreed, wanted }) => {
      const moved = { board: queue(margins), plans: inOrder(order), levelPpm: 800_000 };
      const whole = [...promisesAfter(moved, agreed)].find(([id, p]) => p.bold && !wanted.has(id));
      const found = unwantedBold(moved, agreed, wanted);
      seen[whole ? 'bold' : 'none'] += 1;
      expect(found && [found.jobId, found.ppm]).toEqual(whole ? [whole[0], whole[1].ppm] : null);
    }),
    { numRuns: 60, seed: 7 },
  );
  expect(Math.min(seen.bold, seen.none)).toBeGreaterThan(10);
});

test('the desk is asked by one rule: below what the shop promises, and by more than five points less sure than before', () => {
  // The car of two hours after another of two, later and later: how sure it is falls step by step.
  const cases = [40, 90, 150, 260].flatMap((margin) =>
    [10, 16, 20, 24, 30, 90].map((by) => ({ margin, by })),
  );
  const rows = cases.map(({ margin, by }) => {
    const moved = { board: queue([null, margin]), plans: inOrder([0, 1]), levelPpm: 800_000 };
    const later = moved.plans.map((p) => (p.jobId === 'j1' ? shifted(p, by) : p));
    const asked = promisesAfter({ ...moved, plans: later }, new Set()).get('j1' as JobId);
    return { was: (asked?.beforePpm ?? 0) / 10_000, is: (asked?.ppm ?? 0) / 10_000, bold: asked?.bold };
  });
  expect(rows.some((r) => r.was < 80 && r.bold)).toBe(true);
  expect(rows.some((r) => r.was >= 80 && r.bold)).toBe(true);
  expect(rows.some((r) => r.is < 80 && r.was - r.is > 0 && !r.bold)).toBe(true);
  for (const { was, is, bold } of rows) expect(bold).toBe(is < 80 && was - is > 5);
});

function shifted(plan: JobPlan, by: number): JobPlan {
  return {
    ...plan,
    stays: plan.stays.map((s) => ({ ...s, leaveMin: s.leaveMin + by })),
    pieces: plan.pieces.map((p) => ({
      ...p,
      ...{ startMin: p.startMin + by, endMin: p.endMin + by, dwellEndMin: p.dwellEndMin + by },
    })),
  };
}
