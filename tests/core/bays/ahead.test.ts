import { describe, expect, test } from 'vitest';
import { playAhead } from '#core/bays/rules/ahead.ts';
import { subtract } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec } from '#core/bays/rules/model.ts';
import type { Memory } from '#core/bays/rules/others.ts';
import { placerOf } from '#core/bays/rules/placer.ts';
import { readierOf } from '#core/bays/rules/readier.ts';
import { simulateReady } from '#core/bays/rules/simulate.ts';
import type { JobId } from '#core/shared/ids.ts';
import { type Random, seeded } from '#core/shared/random.ts';
import { car, DAYS, randomBoard } from './randomShop.ts';

const RUNS = 20;
const BOARDS = Math.ceil(Number(process.env['RAKELIGHT_BOARDS'] ?? 120) / 4);
const steps = (it: Iterator<unknown>, most: number): number => {
  for (let n = 0; n < most; n += 1) if (it.next().done === true) return n;
  return most;
};

describe('cars that are played ahead before anybody asks', () => {
  test('give just the chances of a board that nothing is known of, however far it came', () => {
    let compared = 0;
    for (let seed = 1; seed <= BOARDS; seed += 1) {
      const random = seeded(seed);
      const { b } = randomBoard(random);
      const memory: Memory = { others: null };
      const ahead = playAhead(b, { seed, runs: RUNS }, memory);
      steps(ahead, 1 + Math.floor(random() * 12));
      compared += compare(b, { seed, random, memory });
      // What it played is the question's by now: it ends.
      const { others } = memory;
      expect(steps(ahead, 100), `board ${seed}`).toBe(0);
      expect(memory.others, `board ${seed}`).toBe(others);
      compared += compare(b, { seed, random, memory });
    }
    expect(compared).toBeGreaterThan(BOARDS);
  });

  test('are played to the end once, a day with each step', () => {
    const { b } = fullBoard();
    const memory: Memory = { others: null };
    const days = steps(playAhead(b, { seed: 1, runs: RUNS }, memory), 200);
    const lastMin = Math.max(...[...b.plans.values()].flatMap((p) => p.pieces.map((x) => x.startMin)));
    const { others } = memory;
    expect(others?.stands).toHaveLength(days);
    expect(others?.stands.at(-1)?.untilMin).toBeGreaterThan(lastMin);
    expect(others?.stands.at(-2)?.untilMin).toBeLessThanOrEqual(lastMin);
    expect(steps(playAhead({ ...b, nowMin: b.nowMin + 9 }, { seed: 1, runs: RUNS }, memory), 200)).toBe(0);
    expect(memory.others).toBe(others);
  });

  test('are played anew where somebody has other hours from then on', () => {
    const { b, random } = fullBoard();
    const memory: Memory = { others: null };
    const ahead = playAhead(b, { seed: 3, runs: RUNS }, memory);
    steps(ahead, 200);
    const span = { startMin: b.nowMin + 1440, endMin: b.nowMin + 4320 };
    const away: Board = {
      ...b,
      technicians: b.technicians.map((t, i) => (i === 0 ? { ...t, hours: subtract(t.hours, [span]) } : t)),
    };
    const before = memory.others;
    expect(steps(playAhead(away, { seed: 3, runs: RUNS }, memory), 200)).toBeGreaterThan(1);
    expect(memory.others).not.toBe(before);
    expect(compare(away, { seed: 3, random, memory })).toBeGreaterThan(0);
  });

  test('end where more days are planned than are kept', () => {
    const { b } = fullBoard();
    const memory: Memory = { others: null };
    const far = new Map([...b.plans].map(([id, p], i) => [id, i === 0 ? later(p, 200 * 1440) : p]));
    expect(steps(playAhead({ ...b, plans: far }, { seed: 1, runs: 2 }, memory), 500)).toBe(101);
    expect(memory.others?.stands).toHaveLength(100);
  });
});

/** The first of the random boards with many cars. */
function fullBoard(): { readonly b: Board; readonly random: Random } {
  for (let seed = 1; ; seed += 1) {
    const random = seeded(seed);
    const { b } = randomBoard(random);
    if (b.plans.size > 15) return { b, random };
  }
}

function later(plan: JobPlan, byMin: number): JobPlan {
  const move = <T extends { startMin: number; endMin: number; dwellEndMin: number }>(p: T): T => ({
    ...p,
    ...{ startMin: p.startMin + byMin, endMin: p.endMin + byMin, dwellEndMin: p.dwellEndMin + byMin },
  });
  return {
    ...plan,
    pieces: plan.pieces.map(move),
    stays: plan.stays.map((s) => ({ ...s, arriveMin: s.arriveMin + byMin, leaveMin: s.leaveMin + byMin })),
  };
}

type With = { readonly seed: number; readonly random: Random; readonly memory: Memory };

/** Asks for some placements of a new car and says how many were compared. */
function compare(b: Board, { seed, random, memory }: With): number {
  const asked = car(300, random, 0);
  const readyOf = readierOf(b, asked, { seed, runs: RUNS }, memory);
  const placed = placerOf(b, asked);
  const plans = [0, 0.4].flatMap((at) => placed({ notBeforeMin: DAYS * at * 1440 })?.plan ?? []);
  for (const plan of plans) expect(readyOf(plan), `board ${seed}`).toEqual(alone(b, asked, plan, seed));
  return plans.length;
}

function alone(b: Board, target: JobSpec, plan: JobPlan, seed: number): readonly number[] {
  const jobs = new Map<JobId, JobSpec>(b.jobs).set(target.id, target);
  const placed = { ...b, jobs, plans: new Map(b.plans).set(target.id, plan) };
  return simulateReady(placed, [target.id], seed, RUNS).get(target.id) ?? [];
}
