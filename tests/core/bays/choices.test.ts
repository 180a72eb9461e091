import { describe, expect, test } from 'vitest';
import type { OfferWish } from '#core/bays/rules/choice.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobSpec } from '#core/bays/rules/model.ts';
import { arriveOf, placerOf } from '#core/bays/rules/placer.ts';
import { chanceBy } from '#core/bays/rules/promise.ts';
import { readyOf } from '#core/bays/rules/promised.ts';
import type { PersonId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { board, busy, job, open, person, place, plansOf, stage, standing } from './boards.ts';
import { randomBoard } from './randomShop.ts';

const DAYS = 14;
/** Open from 8 to 17 every day, at which cars are handed over each half hour. */
const days = (from: number, to: number): [number, number][] =>
  Array.from({ length: DAYS }, (_, d) => [d * 1440 + from, d * 1440 + to]);
const HOURS = open(...days(480, 1020));
const SLOTS = HOURS.starts.flatMap((s) => Array.from({ length: 18 }, (_, i) => s + i * 30));

function week(more: Partial<Board> = {}): Board {
  const places = [place('bay', 'correction'), place('yard', 'yard', 4)];
  const technicians = [person('ann', HOURS), person('ben', HOURS)];
  const common = { open: HOURS, desk: HOURS, slots: SLOTS, horizonMin: DAYS * 1440 };
  return board({ places, technicians, ...common, ...more });
}
const wish = (more: Partial<OfferWish> = {}): OfferWish => ({
  ...{ notBeforeMin: 0, technicianId: null, day: null, count: 3, levelPpm: 800_000 },
  ...more,
});
const dates = (b: Board, j: JobSpec, more: Partial<OfferWish> = {}) =>
  offersFor(b, j, wish(more)).map((c) => [c.kind, arriveOf(c.placement), c.pickUpMin]);
const day = (d: number, min: number): number => d * 1440 + min;

describe('the dates that are offered', () => {
  test('a short job is offered day by day, never for nights on end', () => {
    // The bay is taken 10:00 on day 0 to 9:00 on day 3, then free: 90 minutes fit at once, or from day 3 on.
    const b = week({ plans: plansOf([standing('x', 'bay', day(0, 600), day(3, 540))]) });
    expect(dates(b, job('j', [stage('s', 90)]))).toEqual([
      ['soonestBack', day(0, 480), day(0, 570)],
      ['later', day(3, 540), day(3, 630)],
      ['later', day(4, 480), day(4, 570)],
    ]);
  });

  test('soonest back is dropped off as late as leaves the pick-up the same', () => {
    // The first stage fits on day 0, the second only when the bay is free on day 5: the first can wait until day 5 too.
    const places = [place('w', 'wash'), place('bay', 'correction'), place('yard', 'yard', 4)];
    const b = week({ places, plans: plansOf([standing('x', 'bay', 0, day(5, 600))]) });
    const j = job('j', [stage('s1', 60, { bayKinds: ['wash'] }), stage('s2', 120)]);
    expect(dates(b, j)[0]).toEqual(['soonestBack', day(5, 540), day(5, 720)]);
  });

  test('soonest in brings the car now and has it back as soon, when there is room for it to wait', () => {
    const full = plansOf([standing('x', 'bay', 0, day(2, 480))]);
    const j = job('j', [stage('s', 60)]);
    expect(dates(week({ plans: full }), j)).toContainEqual(['soonestIn', day(0, 480), day(2, 540)]);
    const places = [place('bay', 'correction'), place('yard', 'yard', 1)];
    const noRoom = plansOf([...full.values(), standing('y', 'yard', 0, day(2, 480))]);
    const kinds = dates(week({ plans: noRoom, places }), j).map(([kind]) => kind);
    expect(kinds).not.toContain('soonestIn');
  });

  test('least waiting is away for clearly shorter than soonest back', () => {
    // 6 h by Ann, who is away from 12:00 on day 0 to day 2: begun on day 0 it is back on day 2; day 3 holds it whole.
    const hours = open([480, 720], [day(2, 480), day(2, 1020)], [day(3, 480), day(3, 1020)]);
    const b = week({ technicians: [person('ann', hours)] });
    const found = dates(b, job('j', [stage('s', 360)]));
    expect(found[0]).toEqual(['soonestBack', day(0, 480), day(2, 600)]);
    expect(found).toContainEqual(['leastWaiting', day(2, 480), day(2, 840)]);
  });

  test('a named person and a named day are offered though they are later', () => {
    const b = week({ plans: plansOf([busy('x', 'ben', 0, day(1, 600))]) });
    const j = job('j', [stage('s', 60)]);
    const asked = { technicianId: 'ben' as PersonId, day: { startMin: day(4, 0), endMin: day(5, 0) } };
    const found = offersFor(b, j, wish(asked));
    const by = found.find((c) => c.kind === 'technician');
    expect([by?.placement.plan.pieces[0]?.personIds, by?.pickUpMin]).toEqual([['ben'], day(1, 660)]);
    expect(found.find((c) => c.kind === 'day')?.pickUpMin).toBe(day(4, 540));
  });

  test('a named day begins no sooner than the car can come', () => {
    const j = job('j', [stage('s', 60)]);
    const asked = { notBeforeMin: day(2, 720), day: { startMin: day(2, 0), endMin: day(3, 0) } };
    const found = offersFor(week({}), j, wish(asked));
    for (const c of found) expect(arriveOf(c.placement)).toBeGreaterThanOrEqual(day(2, 720));
    const late = { ...asked, notBeforeMin: day(4, 0) };
    expect(offersFor(week({}), j, wish(late)).map((c) => c.kind)).not.toContain('day');
  });

  test('nothing is offered on a day on which nothing fits', () => {
    const b = week({ plans: plansOf([standing('x', 'bay', 0, day(6, 0))]) });
    const asked = { day: { startMin: day(2, 0), endMin: day(3, 0) } };
    // It could come into the yard that day; that is no use when its work is days off.
    const found = offersFor(b, job('j', [stage('s', 60)]), wish(asked));
    expect(found.map((c) => c.kind)).not.toContain('day');
  });
});

describe('offers on random boards', () => {
  const random = seeded(12);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const boards = Array.from({ length: 40 }, () => {
    const plans = Array.from({ length: int(0, 14) }, (_, i) => {
      const t = day(int(0, 9), int(480, 900));
      return random() < 0.5
        ? standing(`x${i}`, 'bay', t, t + int(60, 900))
        : busy(`x${i}`, random() < 0.5 ? 'ann' : 'ben', t, t + int(30, 400));
    });
    const stages = Array.from({ length: int(1, 3) }, (_, i) =>
      stage(`s${i}`, int(20, 240), { sigma: 0.3, dwellMin: random() < 0.3 ? int(60, 600) : 0 }),
    );
    return { b: week({ plans: plansOf(plans) }), j: job('j', stages, { jobSigma: 0.15 }) };
  });

  test('none adds nothing: away around another, or later and longer away than all; the soonest comes first', () => {
    for (const { b, j } of boards) {
      const found = offersFor(b, j, wish({ count: 4 })).map((c) => {
        const [from, to] = [arriveOf(c.placement), c.pickUpMin];
        return { kind: c.kind, from, to, away: to - from };
      });
      for (const a of found) {
        const others = found.filter((c) => c !== a);
        // An offer that came before is not gone through again when one away for shorter within its time is found.
        const before = found.slice(0, found.indexOf(a));
        const around = before.some((c) => a.from <= c.from && a.to >= c.to);
        const worse = others.every((c) => a.from > c.from && a.to > c.to && a.away > c.away + 240);
        expect([around && a.kind !== 'soonestIn', worse && others.length > 0]).toEqual([false, false]);
      }
      expect(found[0]?.to).toBe(Math.min(...found.map((c) => c.to)));
    }
  });

  test('the chance of each is simulated for just the plan that would be kept, and is sure enough', () => {
    for (const { b, j } of boards.slice(0, 15))
      for (const c of offersFor(b, j, wish())) {
        expect(c.ready).toEqual(readyOf(b, j, c.placement));
        expect(c.placement.plan.stays.at(-1)?.leaveMin).toBe(c.pickUpMin);
        expect(chanceBy(c.ready, c.pickUpMin)).toBeGreaterThanOrEqual(800_000);
      }
  });
});

test('the soonest from one day on that comes after another has begun is the soonest from that on too', () => {
  let compared = 0;
  for (let seed = 1; seed <= 80; seed += 1) {
    const { b, target } = randomBoard(seeded(seed));
    if (target.start.kind === 'here') continue;
    const placed = placerOf(b, target);
    let last: ReturnType<typeof placed> | undefined;
    for (const notBeforeMin of b.desk.starts.filter((s) => s >= b.nowMin && s < 20 * 1440)) {
      const found = placed({ notBeforeMin });
      if (last && arriveOf(last) >= notBeforeMin) {
        const of = (p: typeof found) => p && [arriveOf(p), p.readyMin, p.pickUpMin, p.plan.pieces];
        expect(of(found), `board ${seed} from ${notBeforeMin}`).toEqual(of(last));
        compared += 1;
      }
      if (last === null) expect(found).toBe(null);
      last = found;
    }
  }
  expect(compared).toBeGreaterThan(60);
});
