import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { markBooked } from '#core/bookings/commands/jobs.ts';
import type { WriteCtx } from '#core/context.ts';
import { DomainError } from '#core/shared/errors.ts';
import type { StageId } from '#core/shared/ids.ts';
import type { EpochMin, EpochMs, Ppm } from '#core/shared/units.ts';
import { CAR_RECORD, jobWith, planned, unclayed } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const MIN = 60_000;
const H = 3_600_000;
const FULL = ['wash', 'decontaminate', 'clay', 'cut', 'refine', 'protect', 'cure', 'finalCheck'] as const;
let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

function codeOf(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    if (error instanceof DomainError) return error.code;
    throw error;
  }
  return 'nothing refused';
}

function book(jobId: ReturnType<typeof jobWith>['jobId'], dropOffMin: number, pickUpMin: number): void {
  const ctx: WriteCtx = {
    db: shop.db,
    now: TEST_NOW,
    actor: null,
    newId: <T extends string>() => '' as T,
    changed: () => {},
    onceKept: (work) => work(),
  };
  const at = { dropOffMin: dropOffMin as EpochMin, pickUpMin: pickUpMin as EpochMin };
  markBooked(ctx, { jobId, ...at, promisePpm: 840_000 as Ppm, bold: false });
}

function work(stageId: StageId, fromMs: number, minutes: number): void {
  shop.at(fromMs);
  shop.write('bookings.startStage', { stageId, personId: shop.people.technician });
  shop.at(fromMs + minutes * MIN);
  shop.write('bookings.finishStage', { stageId, draws: [] });
}

describe('a job from booking to handing over', () => {
  it('runs through every stage, starts the cure by itself, becomes ready and is collected', async () => {
    const { jobId, stageIds } = jobWith(shop, FULL);
    book(jobId, TEST_NOW / MIN - 20, TEST_NOW / MIN + 2880);
    expect(shop.write('bookings.arrive', { jobId, ...CAR_RECORD })).toEqual({ lateMin: 20 });
    for (const [i, stageId] of stageIds.slice(0, 6).entries()) work(stageId, TEST_NOW + i * H, 50);
    const at = TEST_NOW + 5 * H;
    const cured = await shop.read('bookings.job', { jobId });
    expect(cured.stages.map((s) => s.state)).toEqual([
      ...['done', 'done', 'done', 'done', 'done', 'done'],
      'inWork',
      'planned',
    ]);
    expect(cured.hours.workedMin).toBe(300);
    work(stageIds[7] as StageId, at + 14 * H, 30);
    const ready = await shop.read('bookings.job', { jobId });
    expect(ready.state).toBe('ready');
    expect(ready.stages[6]).toMatchObject({ state: 'done', doneMs: at + 50 * MIN + 12 * H });
    expect(ready.conflicts).toEqual([]);
    shop.write('bookings.handOver', { jobId, ...CAR_RECORD, mileage: 48_121 });
    const gone = await shop.read('bookings.job', { jobId });
    expect([gone.state, gone.records.map((r) => r.kind)]).toEqual(['collected', ['arrival', 'handover']]);
    expect(codeOf(() => shop.write('bookings.handOver', { jobId, ...CAR_RECORD }))).toBe('JOB_STATE');
  });

  it('refuses to work on a car that is not here, and a promise before the drop-off in core and in the file', () => {
    const { jobId, stageIds } = jobWith(shop, ['wash']);
    expect(codeOf(() => shop.write('bookings.startStage', { stageId: stageIds[0] as StageId }))).toBe(
      'JOB_STATE',
    );
    expect(codeOf(() => book(jobId, 2000, 2000))).toBe('PROMISE_BEFORE_DROP_OFF');
    expect(() =>
      shop.db.raw.prepare('UPDATE job SET drop_off_min = 10, pick_up_min = 5 WHERE id = ?').run(jobId),
    ).toThrow(/CHECK/);
  });
});

describe('the order of stages', () => {
  it('refuses a cut on unclayed panels unless a named person sets the rule aside with a reason', async () => {
    const { jobId, stageIds } = jobWith(shop, ['decontaminate', 'clay', 'cut']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    work(stageIds[0] as StageId, TEST_NOW, 30);
    const cut = stageIds[2] as StageId;
    expect(codeOf(() => shop.write('bookings.startStage', { stageId: cut }))).toBe('STAGE_ORDER');
    shop.write('bookings.startStage', { stageId: cut, setAside: unclayed('clayed at the last visit') });
    const job = await shop.read('bookings.job', { jobId });
    expect(job.overrides).toMatchObject([
      {
        rule: 'clayBeforeMachine',
        by: 'The owner',
        panels: ['bo', 'ro'],
        reason: 'clayed at the last visit',
      },
    ]);
    expect(() => shop.db.raw.prepare('DELETE FROM job_override').run()).toThrow(/append-only/);
  });
});

describe('time worked', () => {
  it('records one person on two cars and tells it on both, but refuses to type such a thing in', async () => {
    const first = jobWith(shop, ['wash']);
    const second = jobWith(shop, ['wash']);
    for (const { jobId } of [first, second]) shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    const personId = shop.people.technician;
    shop.write('bookings.startStage', { stageId: first.stageIds[0] as StageId, personId });
    const told = shop.write('bookings.startStage', { stageId: second.stageIds[0] as StageId, personId });
    expect(told.conflicts).toMatchObject([{ kind: 'twoAtOnce', otherJobNumber: 1 }]);
    shop.at(TEST_NOW + H);
    for (const { jobId, other } of [
      { jobId: first.jobId, other: 2 },
      { jobId: second.jobId, other: 1 },
    ])
      expect((await shop.read('bookings.job', { jobId })).conflicts).toMatchObject([
        { kind: 'twoAtOnce', otherJobNumber: other },
      ]);
    const typed = {
      personId,
      startMs: (TEST_NOW + 10 * MIN) as EpochMs,
      endMs: (TEST_NOW + 20 * MIN) as EpochMs,
    };
    const stageId = first.stageIds[0] as StageId;
    expect(codeOf(() => shop.write('bookings.typeTime', { stageId, ...typed }))).toBe('WORK_OVERLAPS');
    const ahead = { personId, startMs: TEST_NOW, endMs: (TEST_NOW + 2 * H) as EpochMs };
    expect(codeOf(() => shop.write('bookings.typeTime', { stageId, ...ahead }))).toBe('WORK_AHEAD');
    const back = { personId, startMs: TEST_NOW, endMs: TEST_NOW };
    expect(codeOf(() => shop.write('bookings.typeTime', { stageId, ...back }))).toBe('WORK_REVERSED');
  });

  it('puts a car in work when the first time on it is typed in, so that it can’t be cancelled as untouched', async () => {
    const { jobId, stageIds } = jobWith(shop, ['wash', 'clay']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.at(TEST_NOW + H);
    const personId = shop.people.technician;
    const endMs = (TEST_NOW + 20 * MIN) as EpochMs;
    shop.write('bookings.typeTime', { stageId: stageIds[0] as StageId, personId, startMs: TEST_NOW, endMs });
    expect((await shop.read('bookings.job', { jobId })).state).toBe('inWork');
    expect(codeOf(() => shop.write('bookings.cancelJob', { jobId, reason: 'changed his mind' }))).toBe(
      'JOB_STATE',
    );
  });

  it('corrects an ended stretch and marks it as typed; a running one is left alone', async () => {
    const { jobId, stageIds } = jobWith(shop, ['wash', 'clay']);
    const stageId = stageIds[0] as StageId;
    const personId = shop.people.technician;
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.write('bookings.startStage', { stageId, personId });
    const workId = (await shop.read('bookings.job', { jobId })).stages[0]?.work[0]?.id ?? 0;
    const change = { to: 'times', personId, startMs: TEST_NOW - H, endMs: TEST_NOW } as const;
    expect(codeOf(() => shop.write('bookings.correctTime', { workId, change }))).toBe('WORK_RUNS');
    shop.at(TEST_NOW + 5 * MIN);
    shop.write('bookings.pauseStage', { stageId });
    shop.write('bookings.correctTime', { workId, change });
    const stage = (await shop.read('bookings.job', { jobId })).stages[0];
    expect([stage?.state, stage?.attendedMs, stage?.work[0]?.corrected]).toEqual(['paused', H, true]);
  });
});

describe('planning anew', () => {
  it('keeps what was begun, replaces the rest, keeps the id of a kind that stays and drops what goes', async () => {
    const { jobId, stageIds } = jobWith(shop, ['wash', 'clay', 'cut']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    work(stageIds[0] as StageId, TEST_NOW, 30);
    const { stageIds: next } = shop.write('bookings.setStages', {
      jobId,
      basis: 'testSpot',
      stages: [planned('wash'), planned('clay', ['bo']), planned('refine')],
    });
    expect(next.slice(0, 2)).toEqual(stageIds.slice(0, 2));
    const job = await shop.read('bookings.job', { jobId });
    expect(job.stages.map((s) => [s.kind, s.state])).toEqual([
      ['wash', 'done'],
      ['clay', 'planned'],
      ['refine', 'planned'],
    ]);
    expect([job.planBasis, job.stages[1]?.panels]).toEqual(['testSpot', ['bo']]);
  });
});

describe('jobs that end otherwise', () => {
  it('stops half way with a share of each stage, for billing', async () => {
    const { jobId, stageIds } = jobWith(shop, ['decontaminate', 'clay', 'cut', 'refine']);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    work(stageIds[0] as StageId, TEST_NOW, 60);
    work(stageIds[1] as StageId, TEST_NOW + 2 * H, 60);
    shop.at(TEST_NOW + 4 * H);
    const cut = stageIds[2] as StageId;
    shop.write('bookings.startStage', { stageId: cut });
    shop.write('bookings.panelDone', { stageId: cut, panel: 'bo', done: true });
    shop.at(TEST_NOW + 5 * H);
    const proposed = await shop.read('bookings.sharesIfStopped', { jobId });
    expect(proposed.map((p) => [p.kind, p.sharePpm, p.basis])).toEqual([
      ['decontaminate', 1_000_000, 'whole'],
      ['clay', 1_000_000, 'whole'],
      ['cut', 500_000, 'panels'],
      ['refine', 0, 'nothing'],
    ]);
    const { sharesPpm } = shop.write('bookings.stopHalfWay', {
      jobId,
      reason: 'owner needs the car',
      shares: [],
    });
    expect(stageIds.map((id) => sharesPpm[id])).toEqual([1_000_000, 1_000_000, 500_000, 0]);
    const job = await shop.read('bookings.job', { jobId });
    expect([job.state, job.stoppedHalfWay, job.stages[2]?.attendedMs]).toEqual(['ready', true, H]);
  });

  it('takes a no-show back when it is booked again, cancels with a reason, and ties a redo to its first job', async () => {
    const { jobId } = jobWith(shop, ['wash']);
    const dueMin = TEST_NOW / MIN + 60;
    book(jobId, dueMin, dueMin + 600);
    shop.at(dueMin * MIN - 1);
    expect(await shop.call('bookings.noShow', { jobId })).toMatchObject({
      error: { code: 'DROP_OFF_AHEAD', data: { dropOffAtMin: dueMin } },
    });
    expect((await shop.read('bookings.job', { jobId })).allows).not.toContain('noShow');
    shop.at(dueMin * MIN);
    expect((await shop.read('bookings.job', { jobId })).allows).toContain('noShow');
    shop.write('bookings.noShow', { jobId });
    book(jobId, dueMin + 1000, dueMin + 1600);
    expect((await shop.read('bookings.job', { jobId })).endedMs).toBeNull();
    shop.write('bookings.cancelJob', { jobId, reason: 'car was sold' });
    expect((await shop.read('bookings.job', { jobId })).state).toBe('cancelled');
    const done = jobWith(shop, ['wash']);
    shop.write('bookings.arrive', { jobId: done.jobId, ...CAR_RECORD });
    work(done.stageIds[0] as StageId, TEST_NOW, 30);
    const redo = shop.write('bookings.openRedo', { jobId: done.jobId, wish: 'streaks on the roof' });
    expect((await shop.read('bookings.job', { jobId: redo.jobId })).redoOf?.id).toBe(done.jobId);
  });

  it('wants a signature where one was chosen, and consent for the record before consent to publish', () => {
    const { jobId } = jobWith(shop, ['wash']);
    const sign = { jobId, ...CAR_RECORD, agreedWay: 'signature' } as const;
    expect(codeOf(() => shop.write('bookings.arrive', sign))).toBe('SIGNATURE_MISSING');
    const shown = { jobId, ...CAR_RECORD, picturesRecord: false, picturesPublish: true };
    expect(codeOf(() => shop.write('bookings.arrive', shown))).toBe('PUBLISH_NEEDS_RECORD');
  });
});

describe('what the screens read', () => {
  it('lists, searches and counts jobs, and shows today at the desk', async () => {
    const { jobId, stageIds } = jobWith(shop, FULL);
    book(jobId, TEST_NOW / MIN - 60, TEST_NOW / MIN + 120);
    const late = await shop.read('bookings.desk', {});
    expect(late.arriving).toMatchObject([{ number: 1, lateMin: 60 }]);
    expect(await shop.read('bookings.risks', {})).toMatchObject([
      { reason: { kind: 'notArrived', lateMin: 60 } },
    ]);
    shop.write('bookings.arrive', { jobId, ...CAR_RECORD });
    shop.write('bookings.startStage', { stageId: stageIds[0] as StageId, personId: shop.people.technician });
    shop.at(TEST_NOW + 30 * MIN);
    const desk = await shop.read('bookings.desk', {});
    expect(desk.inBays).toMatchObject([{ stage: 'wash', stageState: 'inWork', who: ['The technician'] }]);
    expect(desk.hours.workedMin).toBe(30);
    expect(desk.goingHome).toHaveLength(1);
    const found = await shop.read('bookings.jobs', { search: 'ößterl' });
    expect(found.rows).toMatchObject([{ id: jobId, stage: 'wash', panelsInWork: ['bo', 'ro'] }]);
    expect((await shop.read('bookings.jobs', { search: 'rl12' })).total).toBe(1);
    expect((await shop.read('bookings.jobs', { search: '100%' })).total).toBe(0);
    expect((await shop.read('bookings.hand', { jobIds: [jobId] }))[0]).toMatchObject({ p50Min: 420 });
  });

  it('prints a job card with the stages, the speeds and the cautions', async () => {
    const { jobId } = jobWith(shop, FULL);
    const file = await shop.read('bookings.cardFile', { jobId });
    expect(file.fileName).toBe('job-card-1.pdf');
    const pdf = await getDocument({ data: new Uint8Array(file.bytes), verbosity: 0 }).promise;
    let text = '';
    for (let n = 1; n <= pdf.numPages; n += 1) {
      const content = await (await pdf.getPage(n)).getTextContent();
      text += content.items.map((item) => ('str' in item ? item.str : '')).join(' ');
    }
    text = text.replace(/\s+/g, ' ');
    for (const part of [
      'Jörg Ößterling',
      'Velloy Merrin',
      '1,400',
      'lowest speed',
      'hologram',
      'Gloves',
      'bonnet',
      // One box to tick for each machine stage on each of the two panels.
      '[ ] [ ]',
    ])
      expect(text).toContain(part);
  });
});
