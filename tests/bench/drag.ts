import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { CDPSession, Page } from 'playwright-core';
import type { Board } from '#core/bays/rules/model.ts';
import { DATABASE_FILE } from '#core/db/backup.ts';
import { openBayShop } from '#tests/core/bays/shop.ts';
import { startProgram } from '../bridge/hostProcess.ts';
import { signInOwner } from '../e2e/pageCalls.ts';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { filled } from './bays.ts';
import { type BenchRow, ms } from './measure.ts';

const CLOCK = '2026-11-23T09:13:00Z';
/** Monday 23 November 2026, midnight in the shop. */
const MONDAY_MIN = Date.parse('2026-11-22T23:00:00Z') / 60_000;
const BAYS = 12;
const STEPS = 100;

/** What each step of a drag costs the page, by Chromium's own trace: twelve bays, eight weeks, the widest view. */
export async function rows(): Promise<readonly BenchRow[]> {
  const what = 'one step of a drag, 12 bays, 8 weeks: script and layout';
  const choice = findChromium();
  if (!choice) return [{ what, measured: 'not measured: no Chromium here' }];
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-drag-'));
  fillShop(path.join(folder, DATABASE_FILE));
  const host = startProgram('start', ['--browser', '--data', folder], { RAKELIGHT_CLOCK: CLOCK });
  const browser = await launchChromium(choice);
  try {
    const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
    const page = await browser.newPage({ viewport: { width: 1920, height: 1080 } });
    await page.clock.setFixedTime(new Date(CLOCK));
    await page.goto(url);
    await page.locator('main').first().waitFor();
    await signInOwner(page);
    await page.goto(`${page.url().split('#')[0]}#/bays`);
    await page.locator('[data-job]').first().waitFor();
    await page.getByText('4 weeks', { exact: true }).first().click();
    // Until the cars of all the weeks are there: drawn in the midst of the drag they would count as its work.
    await page.locator('[data-job]').nth(300).waitFor({ timeout: 60_000 });
    await page.waitForTimeout(3000);
    const cars = await page.locator('[data-job]').count();
    const steps = await dragged(page);
    const share = (of: number): string => ms(steps[Math.floor(steps.length * of)] ?? Number.NaN);
    const measured = `${share(0.5)}, p95 ${share(0.95)}`;
    return [{ what, measured, beside: `${cars} cars on the screen`, asked: 'p95 < 8 ms' }];
  } finally {
    await browser.close();
    await host.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A shop file with the board of the offers' bench: drawn as it stands, whatever its hours. */
function fillShop(file: string): void {
  const shop = openBayShop();
  // The small shop's own places; nothing stands there yet.
  shop.db.raw.exec('DELETE FROM bay');
  const kinds = ['correction', 'wash', 'correction', 'protection'] as const;
  const bays = Array.from({ length: BAYS }, (_, i) => ({
    name: `Bay ${i + 1}`,
    kind: kinds[i % 4] as never,
  }));
  const { bayIds } = shop.write('bays.setBays', {
    bays: [...bays, { name: 'Yard', kind: 'yard', capacity: 6 }],
  });
  const people = Array.from({ length: 10 }, (_, i) => {
    const { id } = shop.write('access.addPerson', { name: `Hand ${i + 1}`, role: 'technician' });
    const shifts = [1, 2, 3, 4, 5, 6].map((weekday) => ({ weekday, startMin: 480, endMin: 1020 }));
    shop.write('bays.setTechnician', { personId: id, skills: ['wash', 'correction', 'protection'], shifts });
    return id;
  });
  const board = filled(BAYS, 10, 400, 56);
  const bayOf = (id: string): string => bayIds[id === 'yard' ? BAYS : Number(id.slice(1))] as string;
  const personOf = (id: string): string => people[Number(id.slice(1))] as string;
  for (const j of board.jobs.values()) addPlanned(shop, board, j, bayOf, personOf);
  shop.db.raw.exec(`VACUUM INTO '${file}'`);
  shop.close();
}

function addPlanned(
  shop: ReturnType<typeof openBayShop>,
  board: Board,
  job: Board['jobs'] extends ReadonlyMap<unknown, infer J> ? J : never,
  bayOf: (id: string) => string,
  personOf: (id: string) => string,
): void {
  const plan = board.plans.get(job.id);
  const [first, last] = [plan?.stays[0], plan?.stays.at(-1)];
  if (!plan || !first || !last) return;
  const at = (min: number): number => MONDAY_MIN + min;
  const kinds = ['wash', 'cut', 'refine', 'protect'] as const;
  const id = shop.job(
    `Marit ${['Vane', 'Brisk', 'Ostler'][job.number % 3]}`,
    job.stages.map((s, i) => ({
      ...{ kind: kinds[i] ?? 'cut', min: s.labourMin, dwell: s.dwellMin },
      ...{ bay: s.bayKinds[0] ?? 'correction', skill: s.skill },
    })),
  );
  const run = (sql: string, ...values: readonly (string | number)[]) =>
    shop.db.raw.prepare(sql).run(...values);
  run(
    "UPDATE job SET state = 'booked', drop_off_min = ?, pick_up_min = ? WHERE id = ?",
    ...[at(first.arriveMin), at(last.leaveMin), id],
  );
  for (const s of plan.stays)
    run(
      'INSERT INTO stay (job_id, bay_id, arrive_min, leave_min) VALUES (?, ?, ?, ?)',
      ...[id, bayOf(s.bayId), at(s.arriveMin), at(s.leaveMin)],
    );
  const stages = shop.db.raw
    .prepare('SELECT id FROM job_stage WHERE job_id = ? ORDER BY seq')
    .pluck()
    .all(id);
  for (const p of plan.pieces)
    run(
      `INSERT INTO placement (job_id, stage_id, bay_id, person_id, start_min, end_min, dwell_end_min)
       VALUES (?, ?, ?, ?, ?, ?, ?)`,
      ...[id, String(stages[job.stages.findIndex((s) => s.id === p.stageId)]), bayOf(p.bayId)],
      ...[personOf(p.personIds[0] ?? ''), at(p.startMin), at(p.endMin), at(p.dwellEndMin)],
    );
}

type TraceEvent = {
  readonly name: string;
  readonly ph: string;
  readonly tid: number;
  readonly pid: number;
  readonly ts: number;
  readonly tts?: number;
  readonly tdur?: number;
  readonly args?: { readonly data?: { readonly type?: string } };
};

/** A car drawn over the whole board, step by step; the milliseconds of the page's own work in each, rising. */
async function dragged(page: Page): Promise<readonly number[]> {
  const car = page.locator('[data-job]:has([data-form="plan"])').nth(8);
  const box = await car.boundingBox();
  if (!box) throw new Error('no car to drag');
  const [x, y] = [box.x + box.width / 2, box.y + 8];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const events = await traced(await page.context().newCDPSession(page), async () => {
    for (let i = 0; i < STEPS; i += 1) {
      await page.mouse.move(x + i * 5, y + (i % 30) * 12);
      await page.waitForTimeout(60);
    }
  });
  await page.keyboard.press('Escape');
  await page.mouse.up();
  return perStep(events);
}

async function traced(cdp: CDPSession, work: () => Promise<void>): Promise<readonly TraceEvent[]> {
  const events: TraceEvent[] = [];
  cdp.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const complete = new Promise((resolve) => cdp.once('Tracing.tracingComplete', resolve));
  const includedCategories = ['devtools.timeline', 'v8.execute'];
  await cdp.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories } });
  await work();
  await cdp.send('Tracing.end');
  await complete;
  return events;
}

/** Script and layout; what runs within another of these is counted once. */
const WORK = new Set([
  'EventDispatch',
  'FunctionCall',
  'FireAnimationFrame',
  'RunMicrotasks',
  'TimerFire',
  'UpdateLayoutTree',
  'Layout',
  'MinorGC',
  'MajorGC',
]);

/** By the thread's own time, so that other programs on the machine do not count. */
function perStep(events: readonly TraceEvent[]): readonly number[] {
  const isStep = (e: TraceEvent): boolean =>
    e.name === 'EventDispatch' && e.args?.data?.type === 'pointermove';
  const page = events.find(isStep);
  const own = events
    .filter((e) => e.ph === 'X' && e.tid === page?.tid && e.pid === page?.pid && WORK.has(e.name))
    .sort((a, b) => a.ts - b.ts);
  const starts = own.filter(isStep).map((e) => e.tts ?? 0);
  const steps = starts.map((from, i) => {
    const to = starts[i + 1] ?? Number.POSITIVE_INFINITY;
    let [sum, end] = [0, from];
    for (const { tts = 0, tdur = 0 } of own) {
      if (tts < from || tts >= to || tts + tdur <= end) continue;
      sum += tts + tdur - Math.max(tts, end);
      end = tts + tdur;
    }
    return sum / 1000;
  });
  return steps.slice(0, -1).sort((a, b) => a - b);
}
