import { describe, expect, test } from 'vitest';
import type { OfferWish } from '#core/bays/rules/choice.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobSpec } from '#core/bays/rules/model.ts';
import { chanceBy } from '#core/bays/rules/promise.ts';
import { whyNotEarlier } from '#core/bays/rules/why.ts';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import { board, job, open, person, place, plansOf, stage, standing } from './boards.ts';

const DAYS = 14;
const HOURS = open(
  ...Array.from({ length: DAYS }, (_, d): [number, number] => [d * 1440 + 480, d * 1440 + 1020]),
);
/** Cars are handed over each half hour from 8 to 17. */
const SLOTS = HOURS.starts.flatMap((s) => Array.from({ length: 19 }, (_, i) => s + i * 30));
const day = (d: number, min: number): number => d * 1440 + min;
const here = standing('j', 'bay', 480, 2000);

function week(more: Partial<Board> = {}): Board {
  const places = [place('bay', 'correction'), place('yard', 'yard', 1)];
  const technicians = [person('ann', HOURS), person('ben', HOURS, 500_000)];
  const common = { open: HOURS, desk: HOURS, slots: SLOTS, horizonMin: DAYS * 1440, nowMin: 600 };
  return board({ places, technicians, ...common, plans: plansOf([here]), ...more });
}
/** Four hours of work, now and then a good deal more, on a car that stands in the bay since 8. */
const car = (sigma = 0.3): JobSpec =>
  job('j', [stage('s', 240, { sigma })], { start: { kind: 'here', bayId: 'bay' as BayId, fromMin: 600 } });
const wish = (more: Partial<OfferWish> = {}): OfferWish => ({
  ...{ notBeforeMin: 600, technicianId: null, day: null, count: 4, levelPpm: 800_000 },
  ...more,
});
const dates = (b: Board, j: JobSpec, more: Partial<OfferWish> = {}) =>
  offersFor(b, j, wish(more)).map((c) => [c.kind, c.pickUpMin]);

describe('the dates that are offered for a car that is here', () => {
  test('are the soonest, a surer one, and the next days on which it can be fetched', () => {
    const found = offersFor(week(), car(), wish());
    expect(found.map((c) => c.kind)).toEqual(['soonestBack', 'surer', 'later', 'later']);
    const [soonest, surer, next, after] = found;
    expect(chanceBy(soonest?.ready ?? [], soonest?.pickUpMin ?? 0)).toBeGreaterThanOrEqual(800_000);
    expect(chanceBy(surer?.ready ?? [], surer?.pickUpMin ?? 0)).toBeGreaterThanOrEqual(950_000);
    expect(surer?.pickUpMin).toBeGreaterThan(soonest?.pickUpMin ?? 0);
    expect([next?.pickUpMin, after?.pickUpMin]).toEqual([day(1, 480), day(2, 480)]);
    // It stands until it is fetched, and its work is not put off for that.
    for (const c of found) expect(c.placement.plan.stays.at(-1)?.leaveMin).toBe(c.pickUpMin);
    expect(new Set(found.map((c) => c.placement.plan.pieces[0]?.startMin)).size).toBe(1);
  });

  test('are those of a named day and a named technician where they were asked for', () => {
    const span = { startMin: day(3, 0), endMin: day(4, 0) };
    expect(dates(week(), car(0), { day: span })).toContainEqual(['day', day(3, 480)]);
    const by = offersFor(week(), car(0), wish({ technicianId: 'ben' as PersonId }));
    const bens = by.find((c) => c.kind === 'technician');
    expect(bens?.placement.plan.pieces.flatMap((p) => p.personIds)).toEqual(['ben']);
    // Ben takes twice as long: what is left of the first day and a part of the next.
    expect(bens?.pickUpMin).toBe(day(1, 540));
  });

  test('are one only where it can stand nowhere after that', () => {
    const plans = plansOf([here, standing('x', 'bay', 900, day(9, 0)), standing('y', 'yard', 0, day(9, 0))]);
    expect(dates(week({ plans, horizonMin: day(8, 0) }), car(0))).toEqual([['soonestBack', 840]]);
  });

  test('say why they are not earlier: it is ready sooner and stands here, or that is when it is sure', () => {
    const b = week();
    const found = offersFor(b, car(), wish());
    const why = found.map((c) => whyNotEarlier(b, car(), c));
    expect(why.map((w) => w.kind).slice(1)).toEqual(['sure', 'stands', 'stands']);
    expect(why[2]?.gainMin).toBe(day(1, 480) - 840);
  });
});
