import { readFileSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DATABASE_FILE } from '#core/db/backup.ts';
import type { UtilizationView } from '#core/shared/views/figures.ts';
import { CAR_RECORD, planned } from '#tests/helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, SAMPLE, type ShopWindow } from '../renderer/shopWindow.ts';

const choice = findChromium();
const HOUR_MS = 3_600_000;
const CURE_MIN = 720;

/**
 * The night of a clock change, by hand. @source EU directive 2000/84/EC: last Sundays of March and October at 01:00
 * UTC; 15 U.S.C. 260a: second Sunday of March, first of November at 02:00 local time.
 */
type Night = {
  readonly zone: string;
  /** Saturday 19:00 on the wall, as an instant. */
  readonly evening: string;
  readonly change: string;
  /** Sunday in hours. */
  readonly dayHours: 23 | 25;
};
const NIGHTS: readonly (readonly [string, Night])[] = [
  [
    'in Vienna in October',
    { zone: 'Europe/Vienna', evening: '2026-10-24T17:00Z', change: '2026-10-25T01:00Z', dayHours: 25 },
  ],
  [
    'in Vienna in March',
    { zone: 'Europe/Vienna', evening: '2027-03-27T18:00Z', change: '2027-03-28T01:00Z', dayHours: 23 },
  ],
  [
    'in New York in November',
    { zone: 'America/New_York', evening: '2026-10-31T23:00Z', change: '2026-11-01T06:00Z', dayHours: 25 },
  ],
  [
    'in New York in March',
    { zone: 'America/New_York', evening: '2027-03-14T00:00Z', change: '2027-03-14T07:00Z', dayHours: 23 },
  ],
];

const WEEK = [1, 2, 3, 4, 5, 6, 7];
/** Open day and night: the work itself goes through the hour that is left out or comes twice. */
const openAllHours = (zone: string) => ({
  ...SAMPLE,
  shop: { ...SAMPLE.shop, zone },
  hours: WEEK.flatMap((weekday) =>
    (['shop', 'desk'] as const).map((kind) => ({ weekday, kind, openMin: 0, closeMin: 1440 })),
  ),
  technicians: SAMPLE.technicians.map((t) => ({
    ...t,
    shifts: WEEK.map((weekday) => ({ weekday, startMin: 0, endMin: 1440 })),
  })),
});

/** The wall clock of a zone at a minute, as `HH:mm`; by the system's own time zone data. */
function wall(minute: number, zone: string): string {
  const how = { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
  return new Intl.DateTimeFormat('en-GB', how).format(minute * 60_000);
}

async function holdToFinish(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Hold to finish' }).hover();
  await page.mouse.down();
  await page.getByRole('region', { name: 'Used up' }).waitFor();
  await page.mouse.up();
  await page.getByRole('button', { name: 'Finish the stage' }).first().click();
  await page.getByRole('navigation', { name: 'Stages' }).waitFor();
}

/** Dropped off on a Saturday evening, worked on and cured through the night in which the clocks change. */
describe.skipIf(choice === null).each(NIGHTS)('a car over the clock change %s', (_where, night) => {
  const evening = Date.parse(night.evening);
  const change = Date.parse(night.change) / 60_000;
  let win: ShopWindow;
  let file: Database.Database;
  let jobId = '';
  const row = (sql: string): Record<string, number> =>
    file.prepare(sql).get({ jobId }) as Record<string, number>;
  const job = () => row('SELECT state, drop_off_min, pick_up_min, promise_ppm FROM job WHERE id = :jobId');

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, openAllHours(night.zone), undefined, {
      ms: evening,
      zone: night.zone,
    });
    file = new Database(path.join(win.folder, DATABASE_FILE), { readonly: true });
    jobId = await openJobFor(
      win.call,
      { name: 'Änne Weißhaupt' },
      { body: 'estate', makeModel: 'Velloy Dune' },
    );
    const stages = [planned('wash'), planned('cure')];
    await win.call('bookings.setStages', { jobId, basis: 'agreed', stages });
  });
  afterAll(async () => {
    file?.close();
    await win?.close();
  });

  it('is offered and booked for that Saturday, with a cure of twelve hours of real time', async () => {
    const { page } = win;
    await win.goTo(`/jobs/${jobId}`);
    await page.getByRole('button', { name: 'Offers' }).first().click();
    const offers = page.getByRole('region', { name: 'Offers' });
    await offers
      .getByRole('button', { name: /books A/ })
      .first()
      .click();
    await expect.poll(() => job()['state']).toBe('booked');
    const { drop_off_min: dropOff = 0, pick_up_min: pickUp = 0, promise_ppm: promise = 0 } = job();
    const { start = 0, end = 0 } = row(`SELECT p.start_min AS start, p.dwell_end_min AS end FROM placement p
      JOIN job_stage s ON s.id = p.stage_id WHERE s.job_id = :jobId AND s.kind = 'cure'`);
    expect(end - start).toBe(CURE_MIN);
    expect(start).toBeLessThan(change);
    expect(end).toBeGreaterThan(change);
    expect(dropOff * 60_000).toBeGreaterThanOrEqual(evening);
    expect(dropOff).toBeLessThan(change);
    expect(pickUp).toBeGreaterThanOrEqual(end);
    expect(promise).toBeGreaterThanOrEqual(800_000);
    // What is said on the screen is the wall clock on either side of the change.
    await win.goTo(`/jobs/${jobId}`);
    for (const minute of [dropOff, pickUp])
      await page
        .getByText(new RegExp(wall(minute, night.zone)))
        .first()
        .waitFor();
    expect(await win.call('bays.faults', {})).toEqual([]);
  });

  it('stands in the calendar file with the zone and the same instants', async () => {
    const [download] = await Promise.all([
      win.page.waitForEvent('download'),
      win.page.getByRole('button', { name: 'Calendar file' }).first().click(),
    ]);
    const text = readFileSync(await download.path(), 'utf8');
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect(calendar.getFirstSubcomponent('vtimezone')?.getFirstPropertyValue('tzid')).toBe(night.zone);
    const events = calendar.getAllSubcomponents('vevent').map((c) => new ICAL.Event(c));
    const { drop_off_min: dropOff, pick_up_min: pickUp } = job();
    expect(events.map((e) => e.startDate.toJSDate().getTime() / 60_000)).toEqual([dropOff, pickUp]);
  });

  it('is worked on from 23:00 to 05:00, which is what the clock ran and not what the wall shows', async () => {
    const { page } = win;
    const began = evening + 4 * HOUR_MS;
    const hours = night.dayHours - 18;
    await win.setClock((job()['drop_off_min'] ?? 0) * 60_000);
    expect(await win.call('bookings.arrive', { jobId, ...CAR_RECORD })).not.toBeNull();
    await win.setClock(began);
    expect(wall(began / 60_000, night.zone)).toBe('23:00');
    await win.goTo(`/jobs/${jobId}/card`);
    await page.getByRole('navigation', { name: 'Stages' }).getByRole('button', { name: /^wash/ }).click();
    await page.getByRole('button', { name: 'Start', exact: true }).first().click();
    await page.getByRole('button', { name: 'Hold to finish' }).waitFor();
    await win.setClock(began + hours * HOUR_MS);
    expect(wall(began / 60_000 + hours * 60, night.zone)).toBe('05:00');
    await page.reload();
    await page
      .getByRole('timer')
      .getByText(new RegExp(`^${hours}:00:0`))
      .waitFor();
    await holdToFinish(page);
    expect(
      row(`SELECT w.end_ms - w.start_ms AS ms FROM stage_work w JOIN job_stage s ON s.id = w.stage_id
      WHERE s.job_id = :jobId`),
    ).toEqual({ ms: hours * HOUR_MS });
  });

  it('leaves a Sunday whose parts add up to its hours', async () => {
    const sunday = new Date(change * 60_000).toISOString().slice(0, 10);
    const view = await win.call<UtilizationView>('figures.utilization', { fromDay: sunday, toDay: sunday });
    for (const bay of view.bays)
      for (const cell of bay.cells) {
        const { attendedMin, cureMin, waitingMin, blockedMin, idleMin, availableMin, closedMin } = cell;
        expect(attendedMin + cureMin + waitingMin + blockedMin + idleMin).toBe(availableMin);
        expect(availableMin + closedMin).toBe(night.dayHours * 60);
      }
    expect(win.faults).toEqual([]);
  });
});
