import { afterEach, beforeEach, expect, test } from 'vitest';
import { addDoneStage, addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';

const HOUR = 3_600_000;
let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
  shop.write('paint.startInspection', { jobId: job.jobId });
  read('before', [119, 120, 121]);
});
afterEach(() => shop.close());

function read(phase: 'before' | 'after', values: readonly number[], panel: 'bo' | 'ro' = 'bo'): void {
  shop.write('paint.addReadings', { jobId: job.jobId, panel, phase, values: [...values] });
}

/** A machine stage on the bonnet, worked on for half an hour from an instant; `ticked` = when the panel was done. */
function worked(seq: number, kind: string, startMs: number, ticked: number | null = null): void {
  addDoneStage(shop, job.jobId, seq, kind, 30, 30, ['bo']);
  const id = shop.db.raw.prepare('SELECT id FROM job_stage WHERE seq = ?').pluck().get(seq);
  shop.db.raw
    .prepare('UPDATE stage_work SET start_ms = ?, end_ms = ? WHERE stage_id = ?')
    .run(startMs, startMs + HOUR / 2, id);
  if (ticked !== null)
    shop.db.raw.prepare('INSERT INTO stage_panel VALUES (?, ?, ?, NULL)').run(id, 'bo', ticked);
}

function booked(): unknown {
  return shop.db.raw
    .prepare(
      "SELECT shown_tenth_um AS shown, booked_tenth_um AS booked FROM panel_removal WHERE panel = 'bo'",
    )
    .get();
}

async function meanAfter(): Promise<number | undefined> {
  const view = await shop.read('paint.inspectionOf', { jobId: job.jobId });
  return view?.panels.find((p) => p.panel === 'bo')?.filmAfter?.meanTenthUm;
}

test('readings between two machine stages say nothing of what both took', async () => {
  worked(1, 'cut', TEST_NOW - HOUR);
  read('after', [116, 117, 118]);
  expect(booked()).toEqual({ shown: 30, booked: 30 });
  worked(2, 'refine', TEST_NOW + HOUR);
  shop.at(TEST_NOW + 2 * HOUR);
  read('after', [112, 113, 114]);
  expect(booked()).toEqual({ shown: 70, booked: 70 });
  expect(await meanAfter()).toBe(1130);
});

test('work after the last reading hides it, and what it showed stays booked', async () => {
  worked(1, 'cut', TEST_NOW - HOUR);
  read('after', [116, 117, 118]);
  worked(2, 'refine', TEST_NOW + HOUR);
  shop.at(TEST_NOW + 2 * HOUR);
  expect(await meanAfter()).toBeUndefined();
  read('before', [119, 120, 121], 'ro');
  read('after', [117, 118, 119], 'ro');
  expect(booked()).toEqual({ shown: 30, booked: 30 });
});

test('a stage that goes on elsewhere after a panel was ticked off leaves the reading of that panel as it is', async () => {
  worked(1, 'cut', TEST_NOW + HOUR, TEST_NOW - HOUR);
  read('after', [116, 117, 118]);
  expect(await meanAfter()).toBe(1170);
});
