import ICAL from 'ical.js';
import { expect } from 'vitest';
import { CALLER, type Run } from '../run.ts';

/** Drop-off and pick-up as a calendar file, read by a library that had no part in writing it. */
export async function calendarFile(run: Run): Promise<void> {
  await run.open(`/jobs/${run.made.get('job')}`);
  const { name, bytes } = await run.saved(() => run.press('Calendar file'));
  expect(name).toBe('job-1.ics');
  const calendar = new ICAL.Component(ICAL.parse(new TextDecoder().decode(bytes)));
  const zone = calendar.getFirstSubcomponent('vtimezone');
  expect(zone?.getFirstPropertyValue('tzid')).toBe('Europe/Vienna');
  const events = calendar.getAllSubcomponents('vevent').map((c) => new ICAL.Event(c));
  expect(events.map((e) => e.summary)).toEqual([`Drop-off ${CALLER}`, `Pick-up ${CALLER}`]);
  const job = run.row('SELECT drop_off_min, pick_up_min FROM job');
  expect(events.map((e) => e.startDate.toJSDate().getTime() / 60_000)).toEqual(Object.values(job));
  expect(events.map((e) => e.uid).every((uid) => uid.includes(String(run.made.get('job'))))).toBe(true);
}
