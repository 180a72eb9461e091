import fc from 'fast-check';
import { afterEach, expect, test } from 'vitest';
import type { JobPlan, JobSpec } from '#core/bays/rules/model.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { scoreOf } from '#core/bays/rules/score.ts';
import { better } from '#core/shared/betterPlan.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import type { ReplanView } from '#core/shared/views/plan.ts';
import { liveBoard } from '#core/views/liveBoard.ts';
import { board, job, person, place, plansOf, stage } from './boards.ts';
import { type BayShop, openBayShop, USUAL } from './shop.ts';

type Task = { readonly min: number; readonly due: number; readonly weight: number };

/** One bay, one person, and jobs of one stage one after the other in the order given. */
function queue(tasks: readonly Task[]) {
  let t = 0;
  const jobs: JobSpec[] = [];
  const plans: JobPlan[] = [];
  tasks.forEach(({ min, due, weight }, i) => {
    jobs.push(job(`j${i}`, [stage(`s${i}`, min)], { number: i + 1, promiseMin: due, lateWeight: weight }));
    const at = { startMin: t, endMin: t + min, dwellEndMin: t + min };
    plans.push({
      jobId: `j${i}` as JobId,
      stays: [{ bayId: 'c' as BayId, arriveMin: t, leaveMin: t + min }],
      pieces: [{ stageId: `s${i}` as StageId, bayId: 'c' as BayId, personIds: ['p' as PersonId], ...at }],
    });
    t += min;
  });
  const b = board({ places: [place('c', 'correction')], technicians: [person('p')], horizonMin: 2000 });
  return { ...b, jobs: new Map(jobs.map((j) => [j.id, j])), plans: plansOf(plans) };
}

/** The least weighed lateness over every order of the tasks. */
function exact(left: readonly Task[], at = 0): number {
  if (left.length === 0) return 0;
  return Math.min(
    ...left.map((task, i) => {
      const end = at + task.min;
      const late = Math.max(0, end - task.due) * task.weight;
      return late + exact([...left.slice(0, i), ...left.slice(i + 1)], end);
    }),
  );
}

const task = fc.record({
  min: fc.integer({ min: 20, max: 90 }),
  due: fc.integer({ min: 20, max: 200 }),
  weight: fc.constantFrom(1, 2, 4),
});
const NOBODY = { consent: new Set<JobId>(), stuck: new Set<JobId>() };
const scored = (b: ReturnType<typeof queue>, plans = b.plans) =>
  scoreOf(b, [...b.jobs.values()], plans, NOBODY);

test('a minute late counts as often as its job weighs, and is told plainly beside it', () => {
  const b = queue([
    { min: 40, due: 30, weight: 4 },
    { min: 60, due: 70, weight: 1 },
  ]);
  // 10 minutes late at four each, 30 at one each.
  expect(scored(b)).toMatchObject({ lateMin: 40, weighedMin: 70, lateJobs: 2 });
});

test('of two plans the one that is less late as weighed is better, though it is later by the clock', () => {
  const light = { min: 60, due: 0, weight: 1 };
  const heavy = { min: 40, due: 0, weight: 4 };
  const [a, b] = [scored(queue([heavy, light])), scored(queue([light, heavy]))];
  // 40 × 4 + 100 against 60 + 100 × 4.
  expect([a.weighedMin, b.weighedMin]).toEqual([260, 460]);
  expect([better(a, b), better(b, a)]).toEqual([true, false]);
  const long = { min: 90, due: 0, weight: 4 };
  const [first, last] = [scored(queue([long, light])), scored(queue([light, long]))];
  expect([first.lateMin, last.lateMin]).toEqual([240, 210]);
  expect(better(first, last)).toBe(true);
});

test('a re-plan is as little late, weighed, as any order of up to five jobs can be, and never below its bound', () => {
  fc.assert(
    fc.property(fc.array(task, { minLength: 2, maxLength: 5 }), (tasks) => {
      const b = queue(tasks);
      // Who agreed need not leave the car in the bay until the pick-up that was promised.
      const found = replan(b, { seed: 5, iterations: 400, consent: new Set(b.jobs.keys()) });
      expect(found.after.weighedMin).toBe(exact(tasks));
      expect(found.bound.weighedMin).toBeLessThanOrEqual(found.after.weighedMin);
      expect(found.bound.lateMin).toBeLessThanOrEqual(found.after.lateMin);
    }),
    { numRuns: 40 },
  );
});

test('where every job weighs as usual, weighed minutes are the minutes', () => {
  fc.assert(
    fc.property(fc.array(task, { minLength: 1, maxLength: 6 }), (tasks) => {
      const of = scored(queue(tasks.map((t) => ({ ...t, weight: 1 }))));
      expect(of.weighedMin).toBe(of.lateMin);
    }),
  );
});

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

test('the desk says what an hour late counts for on the job, and the board has it', async () => {
  const shop = openBayShop();
  opened.push(shop);
  const jobId = shop.job('Marit Vane', USUAL);
  shop.write('bays.bookEarliest', { jobId, runs: 20, marginMin: 0 });
  const { revision, lateWeight }: JobView = await shop.read('bookings.job', { jobId });
  expect(lateWeight).toBe(1);
  shop.write('bookings.changeJob', { jobId, revision, lateWeight: 4 });
  expect(liveBoard(shop.db, { nowMs: 0 }).board.jobs.get(jobId)?.lateWeight).toBe(4);
  expect(
    await shop.call('bookings.changeJob', { jobId, revision: revision + 1, lateWeight: 3 }),
  ).toMatchObject({
    ok: false,
  });
  // Promised for an hour that its plan does not keep any more.
  shop.db.raw.prepare('UPDATE job SET pick_up_min = drop_off_min + 1 WHERE id = ?').run(jobId);
  const view: ReplanView = await shop.read('bays.replan', { iterations: 1 });
  expect(view.before.lateMin).toBeGreaterThan(0);
  expect(view.before.weighedMin).toBe(view.before.lateMin * 4);
});
