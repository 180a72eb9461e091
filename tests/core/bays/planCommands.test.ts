import { expect, it } from 'vitest';
import { openRandomDesk } from './randomDesk.ts';

// Of the commands both must happen often, done and refused, or the runs prove nothing.
it.each([
  { shop: 'a shop', apart: false, runs: 60, done: 150, refused: 40 },
  { shop: 'a shop that keeps stages and bays apart', apart: true, runs: 40, done: 80, refused: 30 },
])(
  'no sequence of commands at the board of $shop leaves a plan that breaks a rule: $runs short runs',
  async (ask) => {
    const desk = openRandomDesk(ask.apart);
    try {
      const sum = { done: 0, refused: 0 };
      for (let seed = 1; seed <= ask.runs; seed += 1) {
        const { done, refused } = await desk.run(seed, 8);
        sum.done += done;
        sum.refused += refused;
      }
      expect(sum.done).toBeGreaterThan(ask.done);
      expect(sum.refused).toBeGreaterThan(ask.refused);
    } finally {
      desk.close();
    }
  },
);
