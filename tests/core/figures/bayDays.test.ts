import fc from 'fast-check';
import { afterEach, expect, it } from 'vitest';
import { spansOf } from '#core/bays/rules/calendar.ts';
import { daysBetween } from '#core/bays/rules/hours.ts';
import { hoursByCell } from '#core/figures/rules/utilization.ts';
import { simShopOf } from '#core/figures/rules/whatIfLay.ts';
import type { BayId } from '#core/shared/ids.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { bayHours } from '#core/views/hoursFrame.ts';
import { type BayShop, openBayShop, USUAL } from '../bays/shop.ts';
import { setupOf } from './whatIfRecord.ts';

const DAY = (day: string): LocalDay => day as LocalDay;
/** From 7:30 to 18:00. */
const OPEN_MIN = 630;
let shop: BayShop | undefined;
afterEach(() => shop?.close());

/** The shop began on Wednesday 25 November 2026; its fourth bay is added on Monday 7 December. */
function withNewBay(): { readonly shop: BayShop; readonly bayId: BayId } {
  shop = openBayShop();
  shop.at(Date.parse('2026-12-07T08:00Z'));
  const { bayId } = shop.write('bays.addBay', { name: 'Lamp bay', kind: 'correction' });
  shop.at(Date.parse('2026-12-10T20:00Z'));
  return { shop, bayId };
}

async function openDays(of: BayShop, bayId: BayId): Promise<readonly string[]> {
  const range = { fromDay: DAY('2026-12-03'), toDay: DAY('2026-12-10'), by: 'day' } as const;
  const { bays } = await of.read('figures.utilization', range);
  const cells = bays.find((b) => b.bayId === bayId)?.cells ?? [];
  for (const cell of cells) expect(cell.availableMin + cell.closedMin).toBe(1440);
  return cells.filter((c) => c.availableMin === OPEN_MIN).map((c) => c.day.slice(8));
}

it('a bay that was added later is nobody’s idle time before, and the owner may correct its first day', async () => {
  const { shop, bayId } = withNewBay();
  // Closed on Sundays: the 6th.
  expect(await openDays(shop, bayId)).toEqual(['07', '08', '09', '10']);
  shop.write('bays.changeBay', { bayId, revision: 1, startedDay: DAY('2026-12-04') });
  expect(await openDays(shop, bayId)).toEqual(['04', '05', '07', '08', '09', '10']);
  shop.write('bays.changeBay', { bayId, revision: 2, startedDay: DAY('2026-12-09') });
  expect(await openDays(shop, bayId)).toEqual(['09', '10']);
});

it('a first day after a car in the bay is refused with the day of that car, and so is a last day before the first', async () => {
  const { shop, bayId } = withNewBay();
  const jobId = shop.job('Marit Vane', USUAL);
  shop.write('bays.bookEarliest', { jobId });
  const { bay, day } = shop.db.raw
    .prepare(
      "SELECT bay_id AS bay, date(min(arrive_min) * 60, 'unixepoch', '+1 hour') AS day FROM stay WHERE job_id = ? GROUP BY bay_id",
    )
    .get(jobId) as { bay: BayId; day: LocalDay };
  const late = { bayId: bay, revision: 1, startedDay: addLocalDays(day, 1) };
  const refused = await shop.call('bays.changeBay', late);
  expect(refused.ok ? '' : sayError('en', refused.error)).toMatch(
    /^(Bay \d|Lamp bay|Yard) had a car or work on \d+ Dec 2026, so its first day/,
  );
  shop.write('bays.changeBay', { ...late, startedDay: day });
  const early = { bayId, revision: 1, lastDay: DAY('2026-12-06') };
  expect(() => shop.write('bays.endBay', early)).toThrow('ENDS_BEFORE_START');
});

it('nothing is offered in a bay before its first day', async () => {
  shop = openBayShop();
  const { bayId } = shop.write('bays.addBay', {
    name: 'Sunroom',
    kind: 'wash',
    startedDay: DAY('2026-12-02'),
  });
  for (const old of shop.bays.slice(0, 1))
    shop.write('bays.endBay', { bayId: old, revision: 1, lastDay: DAY('2026-11-25') });
  const { offers } = await shop.read('bays.offers', { jobId: shop.job('Marit Vane', USUAL) });
  const stays = offers.flatMap((o) => o.plan.stays.filter((s) => s.bayId === bayId));
  expect(stays.length).toBeGreaterThan(0);
  expect(Math.min(...stays.map((s) => s.arriveMin)) * 60_000).toBeGreaterThanOrEqual(
    Date.parse('2026-12-01T23:00Z'),
  );
});

it('the parts of a bay sum to its open minutes over any first and last day, and both days are in it', () => {
  const setup = setupOf();
  const zone = 'Europe/Berlin';
  const days = daysBetween(DAY('2026-10-19'), DAY('2026-11-08'), zone);
  const at = days[0]?.startMin ?? 0;
  const minute = fc.integer({ min: 0, max: 21 * 1440 });
  const stretches = fc.array(fc.tuple(minute, fc.integer({ min: 1, max: 4000 })), { maxLength: 5 });
  fc.assert(
    fc.property(fc.nat(20), fc.nat(20), stretches, stretches, (from, long, work, stood) => {
      const startedDay = days[from]?.day ?? DAY('2026-10-19');
      const endedDay = addLocalDays(startedDay, long);
      const bay = { ...(setup.bays[0] as (typeof setup.bays)[number]), startedDay, endedDay };
      const open = spansOf(bayHours(bay, { days, setup, zone }));
      const lay = (list: typeof work) => list.map(([s, n]) => ({ startMin: at + s, endMin: at + s + n }));
      const edges = [...days.map((d) => d.startMin), days.at(-1)?.endMin ?? 0];
      const record = { open, attended: lay(work), cure: [], occupied: lay(stood), blocked: [] };
      hoursByCell(record, edges).forEach((cell, i) => {
        const day = days[i];
        const there = day && startedDay <= day.day && day.day <= endedDay && day.weekday <= 5;
        expect(cell.availableMin).toBe(there ? 540 : 0);
        expect(cell.attendedMin + cell.waitingMin + cell.idleMin).toBe(cell.availableMin);
      });
    }),
    { numRuns: 25 },
  );
});

it('a what-if shuts a bay up to its first day, but not the first of its kind', () => {
  const days = daysBetween(DAY('2026-11-02'), DAY('2026-11-29'), 'Europe/Berlin');
  const setup = setupOf();
  const [one] = setup.bays as readonly [(typeof setup.bays)[number]];
  const startedDay = DAY('2026-11-16');
  const added = [
    { ...one, bayId: 'b2' as BayId, startedDay },
    { ...one, bayId: 'w' as BayId, kind: 'wash' as const, startedDay },
    { ...one, bayId: 'b3' as BayId, startedDay: DAY('2026-12-24') },
  ];
  const { places } = simShopOf({ ...setup, bays: [...setup.bays, ...added] }, days, 'Europe/Berlin');
  const fortnight = { startMin: days[0]?.startMin, endMin: days[14]?.startMin };
  expect(places.filter((p) => p.kind === 'correction').map((p) => p.shut)).toEqual([[], [fortnight]]);
  expect(places.filter((p) => p.kind === 'wash').map((p) => p.shut)).toEqual([[]]);
});
