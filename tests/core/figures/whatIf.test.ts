import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type WhatIfModel, whatIf } from '#core/figures/rules/whatIf.ts';
import type { Habits } from '#core/figures/rules/whatIfAsks.ts';
import { fitHabits } from '#core/figures/rules/whatIfFit.ts';
import { simShopOf } from '#core/figures/rules/whatIfLay.ts';
import { oneRun, type Side } from '#core/figures/rules/whatIfOneRun.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { WhatIfRow, WhatIfView } from '#core/shared/views/whatIf.ts';
import { openTestShop } from '#tests/helpers/shop.ts';
import { type ShortDemo, shortDemo } from '#tests/helpers/shortDemo.ts';
import { asksOf, DAYS, setupOf } from './whatIfRecord.ts';

const ZONE = 'Europe/Berlin';
const shop = simShopOf(setupOf(), DAYS, ZONE);
const span = { fromMin: DAYS[28]?.startMin ?? 0, toMin: DAYS.at(-1)?.endMin ?? 0 };
const before: Side = { shop, asks: asksOf(20), money: { priceTimes: 1, costWeekMinor: 0 } };
const days = (m: Partial<Record<keyof WhatIfModel['past'], number>>): WhatIfModel['past'] => ({
  ...{ jobs: 5, wait: 7, stay: 2, kept: 0.8, bays: 0.5, people: 0.5, net: 300_000, margin: 280_000 },
  ...m,
});
function modelOf(more: Partial<WhatIfModel> = {}): WhatIfModel {
  const [first, last] = [DAYS[28], DAYS.at(-1)];
  if (!first || !last) throw new Error('no days');
  return {
    ...{ fromDay: first.day, toDay: last.day, days: DAYS, span, before, after: before, past: days({}) },
    ...{ limits: [], change: {}, seed: 1, rounds: 12 },
    ...more,
  };
}
const quiet = { progress: () => {}, cancelled: () => false };
const row = (view: WhatIfView, measure: WhatIfRow['measure']): WhatIfRow => {
  const found = view.rows.find((r) => r.measure === measure);
  if (!found) throw new Error(measure);
  return found;
};

describe('before and after', () => {
  it('differ by nothing where nothing was changed, and a price alone by the price', () => {
    const same = whatIf(modelOf(), quiet);
    expect(same.rows).toHaveLength(8);
    for (const r of same.rows) expect(r.difference).toEqual({ low: 0, mid: 0, high: 0 });
    const dearer = { ...before, money: { priceTimes: 1.1, costWeekMinor: 0 } };
    const view = whatIf(modelOf({ after: dearer }), quiet);
    expect(row(view, 'jobs').difference).toEqual({ low: 0, mid: 0, high: 0 });
    expect(row(view, 'net').after.mid).toBeCloseTo(row(view, 'net').before.mid * 1.1, 6);
    expect(view).toEqual(whatIf(modelOf({ after: dearer }), quiet));
  });

  it('have a narrower band in their difference than either has, since the same cars come', () => {
    const model = modelOf({
      rounds: 40,
      after: { ...before, shop: { ...shop, people: [...shop.people, ...shop.people] } },
    });
    const { before: was, difference } = row(whatIf(model, quiet), 'net');
    expect(difference.high - difference.low).toBeLessThan((was.high - was.low) / 2);
  });

  it('take what the change costs off what is left, and off nothing else', () => {
    const paid = { ...before, money: { priceTimes: 1, costWeekMinor: 50_000 } };
    const view = whatIf(modelOf({ after: paid }), quiet);
    expect(row(view, 'margin').difference.mid).toBeCloseTo(-50_000, 6);
    expect(row(view, 'net').difference.mid).toBe(0);
  });
});

describe('progress and stop', () => {
  it('tells how far it is, up to the whole', () => {
    const told: [number, number][] = [];
    whatIf(modelOf(), { ...quiet, progress: (done, total) => told.push([done, total]) });
    expect(told.map(([done]) => done)).toEqual(told.map(([done]) => done).toSorted((a, b) => a - b));
    expect(told.at(-1)).toEqual([23, 23]);
  });

  it('keeps the runs that are through when it is stopped, and none when it was too early', () => {
    let asked = 0;
    const stopsAfter = (n: number) => ({ ...quiet, cancelled: () => ++asked > n });
    const some = whatIf(modelOf(), stopsAfter(16));
    expect(some.rounds).toBeGreaterThan(0);
    expect(some.rounds).toBeLessThan(12);
    expect(some.rows).toHaveLength(8);
    asked = 0;
    expect(whatIf(modelOf(), stopsAfter(2))).toMatchObject({ rounds: 0, roundsAsked: 12, rows: [] });
  });
});

it('finds how the book was run, from the means that a shop run in that way leaves', () => {
  const truth: Habits = { lead: 0.4, pause: 0.6, promise: 1.2 };
  const runs = Array.from({ length: 40 }, (_, i) => oneRun({ days: DAYS, span }, before, truth, 90_000 + i));
  const mean = (of: 'stay' | 'wait' | 'kept'): number => runs.reduce((s, r) => s + r[of], 0) / runs.length;
  const past = { stay: mean('stay'), wait: mean('wait'), kept: mean('kept') };
  const found = fitHabits({ days: DAYS, span, before, past }, () => true);
  const again = Array.from({ length: 40 }, (_, i) => oneRun({ days: DAYS, span }, before, found, 70_000 + i));
  const near = (of: 'stay' | 'wait', within: number): void => {
    const came = again.reduce((s, r) => s + r[of], 0) / again.length;
    expect({ of, near: Math.abs(came - past[of]) < within * past[of], came }).toMatchObject({ near: true });
  };
  near('stay', 0.1);
  near('wait', 0.15);
  expect(Math.abs(found.pause - truth.pause)).toBeLessThan(0.3);
  expect(Math.abs(found.lead - truth.lead)).toBeLessThan(0.3);
});

describe('a shop’s own file', () => {
  let demo: ShortDemo;
  beforeAll(() => {
    demo = shortDemo('2026-11-25', 45);
  });
  afterAll(() => demo.close());

  it('run again with nothing changed, comes to what it was within nine runs of ten', () => {
    const start = demo.door.read('figures.whatIfStart', {});
    expect(start.finished).toBeGreaterThan(start.needed);
    const view = demo.door.compute('figures.whatIf', { change: {}, rounds: 60 });
    expect(view).toMatchObject({ rounds: 60, weeks: start.weeks, finished: start.finished });
    const outside = view.rows.filter(
      (r) => r.past === null || r.past < r.before.low || r.past > r.before.high,
    );
    expect(outside).toEqual([]);
    // The bands are no barn doors: jobs a week lie within a third either way.
    const jobs = row(view, 'jobs');
    expect(jobs.before.high - jobs.before.low).toBeLessThan(0.67 * jobs.before.mid);
  });

  it('has more done with more hands, bays and cars than with more cars alone', () => {
    const like = demo.door.read('figures.whatIfStart', {}).people[0]?.personId;
    if (!like) throw new Error('nobody');
    const asks = { asksPpm: 800_000 };
    const cars = demo.door.compute('figures.whatIf', { change: asks, rounds: 10 });
    const both = demo.door.compute('figures.whatIf', {
      change: {
        ...asks,
        bay: { bayKind: 'correction', count: 2 },
        technician: { like, count: 2, hours: 'same' },
      },
      rounds: 10,
    });
    expect(row(both, 'jobs').after.low).toBeGreaterThan(row(cars, 'jobs').after.high);
    expect(row(both, 'wait').after.mid).toBeLessThan(row(cars, 'wait').after.mid);
    expect(cars.limits).toContain('anyWait');
    expect(both.limits).toEqual(expect.arrayContaining(['newBay', 'newPerson']));
  });
});

it('says what it lacks, and what does not fit, in sentences', async () => {
  const file = openTestShop();
  const said = async (change: unknown): Promise<string> => {
    const reply = await file.call('figures.whatIf', { change });
    return reply.ok ? 'nothing refused' : sayError('en', reply.error);
  };
  expect(await said({})).toBe('The shop has no opening hours yet. Set them under Shop first.');
  file.write('bays.setOpeningHours', {
    hours: [{ weekday: 1, kind: 'shop', openMin: 480, closeMin: 1020 }],
  });
  expect(await said({})).toMatch(/^No technician has working hours yet/);
  expect(await said({ longerMin: 900 })).toMatch(/^Close later by does not fit: /);
  expect(await said({ technician: { like: file.people.technician, count: 1, hours: 'late' } })).toMatch(
    /somebody who works after closing needs the shop to close later/,
  );
  file.write('bays.setTechnician', {
    personId: file.people.technician,
    skills: ['correction'],
    speedPpm: 1_000_000,
    shifts: [{ weekday: 1, startMin: 480, endMin: 1020 }],
  });
  expect(await said({})).toMatch(/^There are 0 finished jobs in these weeks; it takes 40/);
  file.as('technician');
  expect((await file.call('figures.whatIf', { change: {} })).ok).toBe(false);
  file.close();
});
