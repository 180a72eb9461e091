import { expect, it } from 'vitest';
import { calendarOf, openBetween, startFor } from '#core/bays/rules/calendar.ts';
import type { Placement } from '#core/bays/rules/offers.ts';
import { arriveOf, lastDropOff, placerOf } from '#core/bays/rules/placer.ts';
import { seeded } from '#core/shared/random.ts';
import { job, stage } from './boards.ts';
import { planned } from './randomDay.ts';

it('the last drop-off is the one that trying every slot finds', () => {
  const random = seeded(7);
  let later = 0;
  for (let n = 0; n < 300; n += 1) {
    const board = planned(random);
    const minutes = (most: number): number => 10 + Math.floor(random() * most);
    const stages = [stage('a', minutes(300)), stage('b', minutes(200), { splittable: random() < 0.5 })];
    const car = job(`new${n}`, stages.slice(0, 1 + Math.floor(random() * 2)));
    const place = placerOf(board, car);
    const ask = { notBeforeMin: Math.floor(random() * 2000) };
    const first = place(ask);
    if (!first) continue;
    const slots = board.slots.filter((s) => s > arriveOf(first) && s < first.pickUpMin);
    const same = slots
      .map((notBeforeMin) => place({ notBeforeMin }))
      .filter((p): p is Placement => p?.pickUpMin === first.pickUpMin);
    const best = same.at(-1) ?? first;
    const found = lastDropOff({ board, job: car, place }, first, ask);
    expect([arriveOf(found), found.pickUpMin]).toEqual([arriveOf(best), first.pickUpMin]);
    if (arriveOf(best) > arriveOf(first)) later += 1;
  }
  expect(later).toBeGreaterThan(10);
});

it('the last start leaves just the minutes that are asked for', () => {
  const cal = calendarOf([
    { startMin: 100, endMin: 200 },
    { startMin: 300, endMin: 400 },
  ]);
  expect(startFor(cal, 350, 50)).toBe(300);
  expect(startFor(cal, 350, 51)).toBe(199);
  expect(startFor(cal, 500, 30)).toBe(370);
  expect(startFor(cal, 350, 0)).toBe(350);
  expect(startFor(cal, 350, 151)).toBe(Number.NEGATIVE_INFINITY);
  for (let labour = 1; labour <= 150; labour += 1) {
    const at = startFor(cal, 350, labour);
    expect([openBetween(cal, at, 350), openBetween(cal, at + 1, 350) < labour]).toEqual([labour, true]);
  }
});
