import { TZDate } from '@date-fns/tz';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { spansOf } from '#core/bays/rules/calendar.ts';
import { daysBetween, shiftHours, type WeeklySpan, weekCalendar } from '#core/bays/rules/hours.ts';
import { periodsOf } from '#core/figures/rules/periods.ts';
import { hoursByCell, sumParts } from '#core/figures/rules/utilization.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { UtilizationParts } from '#core/shared/views/figures.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { lookBackDay } from './lookBackDay.ts';

/** Three weeks around a change of the clock: Berlin +1 h and −1 h, St John's −1 h; Apia left its summer time in 2021. */
const CHANGES = [
  ['Europe/Berlin', '2026-03-16'],
  ['Europe/Berlin', '2026-10-12'],
  ['America/St_Johns', '2026-10-19'],
  ['Pacific/Apia', '2021-03-22'],
] as const;
const DAYS = 21;
/** Every change of those hours falls on one. */
const STEP = 15;

const weekly = fc
  .array(
    fc.record({
      weekday: fc.integer({ min: 1, max: 7 }),
      startMin: fc.integer({ min: 0, max: 1380 }),
      long: fc.integer({ min: 1, max: 700 }),
    }),
    { maxLength: 12 },
  )
  .map((rows) =>
    rows.map(({ weekday, startMin, long }) => ({
      weekday,
      startMin,
      endMin: Math.min(1440, startMin + long),
    })),
  );
const minutes = fc
  .tuple(fc.integer({ min: 0, max: DAYS * 1440 }), fc.integer({ min: 1, max: 4000 }))
  .map(([from, long]) => ({ from, to: from + long }));
const stretches = fc.array(minutes, { maxLength: 8 });

describe('hours by day, week and month', () => {
  it('are whole over random weeks, closures and absences, on days of 23 and 25 hours too', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CHANGES),
        weekly,
        fc.integer({ min: 0, max: DAYS - 1 }),
        fc.array(stretches, { minLength: 5, maxLength: 5 }),
        ([zone, from], hours, closedAt, [attended, cure, occupied, blocked, away]) => {
          const days = daysBetween(from as LocalDay, dayAfter(from, DAYS - 1), zone);
          const at = days[0]?.startMin ?? 0;
          const lay = (list: typeof away) =>
            (list ?? []).map((s) => ({ startMin: at + s.from, endMin: at + s.to }));
          const closedDay = days[closedAt]?.day ?? from;
          const who = { personId: 'p', shifts: hours, startedDay: '2020-01-01' as LocalDay, endedDay: null };
          const free = {
            closures: [{ fromDay: closedDay as LocalDay, toDay: closedDay as LocalDay, bayId: null }],
            absences: lay(away).map((s) => ({ ...s, personId: 'p' })),
          };
          const open = spansOf(shiftHours(who, days, zone, free));
          const [a, c, o, b] = [lay(attended), lay(cure), lay(occupied), lay(blocked)];
          const record = { open, attended: a, cure: c, occupied: o, blocked: b };
          const sums = (['day', 'week', 'month'] as const).map((by) => {
            const periods = periodsOf(days, by);
            const cells = hoursByCell(record, [
              ...periods.map((p) => p.startMin),
              periods.at(-1)?.endMin ?? 0,
            ]);
            for (const cell of cells) expect(parts(cell)).toBe(cell.availableMin);
            return sumParts(cells);
          });
          expect(sums[1]).toEqual(sums[0]);
          expect(sums[2]).toEqual(sums[0]);
          expect(sums[0]).toEqual(minuteByMinute(record, at, days.at(-1)?.endMin ?? 0));
        },
      ),
      { numRuns: 25 },
    );
  });

  it('have as many open minutes as a clock on the wall shows, counted quarter by quarter in the zone', () => {
    for (const [zone, from] of CHANGES) {
      const days = daysBetween(from as LocalDay, dayAfter(from, DAYS - 1), zone);
      // Open at night, over the hour that is skipped or comes twice.
      const hours: WeeklySpan[] = [{ weekday: 7, startMin: 60, endMin: 300 }];
      const open = spansOf(weekCalendar(days, hours, zone));
      const cells = hoursByCell({ open, attended: [], cure: [], occupied: [], blocked: [] }, [
        days[0]?.startMin ?? 0,
        days.at(-1)?.endMin ?? 0,
      ]);
      let counted = 0;
      for (let m = days[0]?.startMin ?? 0; m < (days.at(-1)?.endMin ?? 0); m += STEP) {
        const wall = new TZDate(m * 60_000, zone);
        if (wall.getDay() === 0 && wall.getHours() >= 1 && wall.getHours() < 5) counted += STEP;
      }
      expect([zone, cells[0]?.availableMin]).toEqual([zone, counted]);
    }
  });
});

function dayAfter(day: string, days: number): LocalDay {
  return new Date(Date.parse(`${day}T00:00Z`) + days * 86_400_000).toISOString().slice(0, 10) as LocalDay;
}

function parts(of: UtilizationParts): number {
  return of.attendedMin + of.cureMin + of.waitingMin + of.blockedMin + of.idleMin;
}

type Lists = Parameters<typeof hoursByCell>[0];
/** The same by asking every single minute, in separate code. */
function minuteByMinute(record: Lists, fromMin: number, toMin: number): UtilizationParts {
  const bits = (name: keyof Lists): Uint8Array => {
    const row = new Uint8Array(toMin - fromMin);
    for (const s of record[name])
      row.fill(1, Math.max(0, s.startMin - fromMin), Math.max(0, s.endMin - fromMin));
    return row;
  };
  const [open, attended, cure, blocked, occupied] = [
    bits('open'),
    bits('attended'),
    bits('cure'),
    bits('blocked'),
    bits('occupied'),
  ];
  const sum = { availableMin: 0, attendedMin: 0, cureMin: 0, waitingMin: 0, blockedMin: 0, idleMin: 0 };
  for (let i = 0; i < open.length; i += 1) {
    if (!open[i]) continue;
    sum.availableMin += 1;
    if (attended[i]) sum.attendedMin += 1;
    else if (cure[i]) sum.cureMin += 1;
    else if (blocked[i]) sum.blockedMin += 1;
    else if (occupied[i]) sum.waitingMin += 1;
    else sum.idleMin += 1;
  }
  return sum;
}

describe('behind the hours', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
    lookBackDay(shop);
    shop.at(Date.parse('2026-11-26T09:00Z'));
  });
  afterEach(() => shop.close());
  const day = { fromDay: '2026-11-25', toDay: '2026-11-25' };

  it('a technician’s shift is told like the hours of a bay, and work outside it only beside it', async () => {
    const { people } = await shop.read('figures.utilization', day);
    // Shift 09:00–12:30 local = 08:00–11:30Z: nothing in hand until 09:00Z, then work to 11:30Z; half an hour after it.
    expect(people).toMatchObject([
      { workedMin: 180, total: { availableMin: 210, attendedMin: 150, idleMin: 60 } },
    ]);
    expect(people[0]?.cells[0]).toMatchObject({ closedMin: 1440 - 210 });
  });

  it('a month of days is the month', async () => {
    const range = { fromDay: '2026-11-01', toDay: '2026-11-30' };
    const [days, weeks, month] = await Promise.all(
      (['day', 'week', 'month'] as const).map((by) => shop.read('figures.utilization', { ...range, by })),
    );
    expect([days?.bays[0]?.cells.length, weeks?.bays[0]?.cells.length]).toEqual([30, 6]);
    expect(month?.bays[0]?.cells).toMatchObject([{ day: '2026-11-01', toDay: '2026-11-30' }]);
    expect(weeks?.total).toEqual(days?.total);
    expect(month?.total).toEqual(days?.total);
  });

  it('a cell opens into its jobs with the minutes of each', async () => {
    const { bays, people } = await shop.read('figures.utilization', day);
    const bay = { ...day, bayId: bays[0]?.bayId ?? null, personId: null };
    const { jobs } = await shop.read('figures.cellJobs', bay);
    expect(jobs).toEqual([
      {
        ...{ jobId: 'j'.repeat(20), jobNumber: 7, customer: 'Dev Ostler', makeModel: 'Harrowe Lintel' },
        ...{ attendedMin: 180, cureMin: 60, waitingMin: 60, blockedMin: 120 },
      },
    ]);
    const person = { ...day, bayId: null, personId: people[0]?.personId ?? null };
    expect(await shop.read('figures.cellJobs', person)).toMatchObject({
      name: 'The technician',
      jobs: [{ jobNumber: 7, attendedMin: 150, cureMin: 0 }],
    });
    expect(
      await shop.call('figures.cellJobs', { ...day, bayId: 'z'.repeat(20), personId: null }),
    ).toMatchObject({ error: { code: 'NOT_FOUND' } });
  });

  it('a cell of both a bay and a technician, or of neither, is refused with a sentence', async () => {
    const { bays, people } = await shop.read('figures.utilization', day);
    const [bayId, personId] = [bays[0]?.bayId ?? null, people[0]?.personId ?? null];
    for (const ids of [
      { bayId, personId },
      { bayId: null, personId: null },
    ]) {
      const reply = await shop.call('figures.cellJobs', { ...day, ...ids });
      expect(reply.ok ? '' : sayError('en', reply.error)).toBe(
        'The cell does not fit: it has to be of one bay or of one technician, not of both and not of neither. Nothing was saved.',
      );
    }
  });

  it('eleven years are told by month, and three by day', async () => {
    const far = { fromDay: '2016-01-01', toDay: '2026-11-25' };
    expect(await shop.call('figures.utilization', far)).toMatchObject({ error: { code: 'BAD_INPUT' } });
    expect(await shop.call('figures.utilization', { ...far, by: 'month' })).toMatchObject({ ok: true });
    const further = { ...far, fromDay: '2015-01-01', by: 'month' };
    expect(await shop.call('figures.utilization', further)).toMatchObject({ error: { code: 'BAD_INPUT' } });
  });
});
