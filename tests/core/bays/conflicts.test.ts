import { describe, expect, test } from 'vitest';
import { conflictsOn } from '#core/bays/rules/conflicts.ts';
import { liveJob } from '#core/bays/rules/live.ts';
import type { Board, JobPlan, StageSpec } from '#core/bays/rules/model.ts';
import { faultsOfBoard } from '#core/bays/rules/validate.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { board, person, place, stage } from './boards.ts';

const EMPTY = board({
  nowMin: 200,
  places: [place('c', 'correction')],
  technicians: [person('a'), person('b')],
});
const plan = (id: string, arriveMin: number, leaveMin: number, who = 'a'): JobPlan => ({
  jobId: id as JobId,
  stays: [{ bayId: 'c' as BayId, arriveMin, leaveMin }],
  pieces: [
    {
      ...{ stageId: `${id}-s` as StageId, bayId: 'c' as BayId, personIds: [who as PersonId] },
      ...{ startMin: arriveMin, endMin: arriveMin + 60, dwellEndMin: arriveMin + 60 },
    },
  ],
});
type Row = {
  readonly id: string;
  readonly state: JobState;
  readonly kept: JobPlan;
  readonly stage?: Partial<StageSpec>;
  readonly pickUpMin?: number;
};

function conflictsOf(rows: readonly Row[], more: Partial<Parameters<typeof conflictsOn>[1]> = {}) {
  const jobs: Board['jobs'] = new Map();
  const plans: Board['plans'] = new Map();
  for (const { id, state, kept, stage: how, pickUpMin = 900 } of rows) {
    const facts = {
      id: id as JobId,
      number: 1,
      who: id,
      state,
      pickUpMin,
      lateWeight: 1,
      jobSigma: null,
      goneMin: null,
    };
    const dropOffMin = kept.stays[0]?.arriveMin ?? null;
    const live = liveJob(EMPTY, { ...facts, dropOffMin }, [stage(`${id}-s`, 60, how)], kept);
    (jobs as Map<JobId, typeof live.job>).set(live.job.id, live.job);
    (plans as Map<JobId, JobPlan>).set(live.job.id, live.plan);
  }
  const live = { ...EMPTY, jobs, plans };
  const ready = new Set(rows.filter((r) => r.state === 'ready').map((r) => r.id as JobId));
  return conflictsOn(live, { ready, graceMin: 30, pads: [], ...more }, faultsOfBoard(live));
}

describe('what happened against the plan', () => {
  test('a stage worked on for longer than planned is an overrun, by its minutes', () => {
    const running = { state: 'inWork', workedMin: 85 } as const;
    const found = conflictsOf([{ id: 'j', state: 'inWork', kept: plan('j', 100, 300), stage: running }]);
    expect(found.map((c) => [c.kind, c.minutes, c.words['stage']])).toEqual([['overrun', 25, 'cut']]);
    const inTime = { state: 'inWork', workedMin: 59 } as const;
    expect(conflictsOf([{ id: 'j', state: 'inWork', kept: plan('j', 100, 300), stage: inTime }])).toEqual([]);
  });

  test('a stage of a car that is here, whose time came and which nobody began, is said once, after the grace', () => {
    const found = (startMin: number) =>
      conflictsOf([{ id: 'j', state: 'here', kept: plan('j', startMin, 400) }]).map((c) => [
        c.kind,
        c.minutes,
      ]);
    expect(found(150)).toEqual([['notBegun', 50]]);
    expect(found(175)).toEqual([]);
  });

  test('a collected car breaks no rule, though its plan lies behind', () => {
    const row = { id: 'j', kept: plan('j', 20, 150), stage: { state: 'done' } } as const;
    expect(conflictsOf([{ ...row, state: 'collected' }])).toEqual([]);
  });

  test('a car that was collected or never came is not called late any more', () => {
    for (const state of ['collected', 'noShow', 'cancelled'] as const) {
      const found = conflictsOf([{ id: 'j', state, kept: plan('j', 20, 150), stage: { state: 'done' } }]);
      expect(found.filter((c) => c.kind === 'lateArrival')).toEqual([]);
    }
    const awaited = conflictsOf([{ id: 'j', state: 'booked', kept: plan('j', 20, 150) }]);
    expect(awaited.map((c) => c.kind)).toContain('lateArrival');
  });

  test('a car that is ready and stands past its promise is not collected, since that minute', () => {
    const row = { id: 'j', state: 'ready', kept: plan('j', 20, 150), stage: { state: 'done' } } as const;
    const found = conflictsOf([{ ...row, pickUpMin: 150 }]);
    expect(found.map((c) => [c.kind, c.atMin, c.minutes])).toEqual([['notCollected', 150, 50]]);
    expect(conflictsOf([{ ...row, pickUpMin: 260 }])).toEqual([]);
  });

  test('a booked car that has not come half an hour after its time is a late arrival; before that it is not', () => {
    const at = (arriveMin: number): Row => ({ id: 'j', state: 'booked', kept: plan('j', arriveMin, 600) });
    expect(conflictsOf([at(165)]).map((c) => [c.kind, c.atMin, c.minutes])).toContainEqual([
      'lateArrival',
      165,
      35,
    ]);
    expect(conflictsOf([at(171)]).map((c) => c.kind)).not.toContain('lateArrival');
  });

  test('whoever took note of a late car has not taken note of its next time', () => {
    const keyAt = (arriveMin: number): string | undefined =>
      conflictsOf([{ id: 'j', state: 'booked', kept: plan('j', arriveMin, 600) }]).find(
        (c) => c.kind === 'lateArrival',
      )?.key;
    expect(keyAt(20)).toBe(keyAt(20));
    expect(keyAt(20)).not.toBe(keyAt(30));
  });

  test('two cars begun in one bay are both recorded and shown, never refused', () => {
    const running = { state: 'inWork', workedMin: 10 } as const;
    const found = conflictsOf([
      { id: 'j', state: 'inWork', kept: plan('j', 100, 190), stage: running },
      { id: 'k', state: 'inWork', kept: plan('k', 190, 400, 'b'), stage: running },
    ]);
    expect(found.map((c) => c.kind)).toContain('twoCars');
    expect(found[0]?.words).toMatchObject({ bay: 'c' });
  });

  test('a car that stays on where another is planned breaks that plan, in words of the rule', () => {
    const running = { state: 'inWork', workedMin: 10 } as const;
    const found = conflictsOf([
      { id: 'j', state: 'inWork', kept: plan('j', 100, 230), stage: running },
      { id: 'k', state: 'booked', kept: plan('k', 230, 400, 'b') },
    ]);
    const broken = found.find((c) => c.kind === 'planBroken' && c.jobId === 'k');
    expect(broken?.words).toMatchObject({ rule: 'bayTaken', bay: 'c', other: 'j' });
  });

  test('a job that clean pads will be missing for is shown with what it needs and has', () => {
    const lacking = {
      jobId: 'j' as JobId,
      item: 'Cutting pad',
      needs: 6,
      has: 2,
      washHelps: true,
      atMin: 1440,
    };
    const row: Row = { id: 'j', state: 'booked', kept: plan('j', 300, 600) };
    const found = conflictsOf([row], { pads: [lacking, { ...lacking, jobId: 'elsewhere' as JobId }] });
    expect(found.map((c) => [c.kind, c.jobId, c.words['needs'], c.words['has'], c.words['help']])).toEqual([
      ['padsMissing', 'j', 6, 2, 'wash'],
    ]);
  });
});
