import { expect, it } from 'vitest';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { shortDemo } from '../helpers/shortDemo.ts';

/** The pictures' day, a Saturday, and one in spring: each tells a story of its own. */
const DAYS = ['2026-11-25', '2026-11-28', '2027-05-03'] as string[] as LocalDay[];

it.each(DAYS)(
  'two years up to %s have about 1,200 jobs of 7.6 hours, which fill about 70 % of the shifts',
  (day) => {
    const demo = shortDemo(day, 730);
    expect(demo.findings()).toEqual([]);
    const jobs = demo.count(`SELECT count(*) FROM job WHERE state = 'collected'`);
    expect(jobs).toBeGreaterThan(1100);
    expect(jobs).toBeLessThan(1300);
    const hours =
      demo.count('SELECT total(end_ms - start_ms) FROM stage_work WHERE end_ms IS NOT NULL') / 3_600_000;
    expect(hours / jobs).toBeGreaterThan(7.2);
    expect(hours / jobs).toBeLessThan(8);
    const spent = demo.door.read('figures.utilization', { fromDay: addLocalDays(day, -729), toDay: day });
    const worked = spent.people.reduce((sum, p) => sum + p.workedMin, 0);
    const shifts = spent.people.reduce((sum, p) => sum + p.total.availableMin, 0);
    expect(worked / shifts).toBeGreaterThan(0.65);
    expect(worked / shifts).toBeLessThan(0.77);
    const days = demo.count('SELECT avg(drop_off_min - created_ms / 60000) / 1440 FROM job');
    expect(days).toBeLessThan(14);
    demo.close();
  },
);
