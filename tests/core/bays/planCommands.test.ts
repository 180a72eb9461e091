import { expect, it } from 'vitest';
import { openRandomDesk } from './randomDesk.ts';

it('no sequence of commands at the board leaves a plan that breaks a rule: 60 short runs', async () => {
  const desk = openRandomDesk();
  try {
    const sum = { done: 0, refused: 0 };
    for (let seed = 1; seed <= 60; seed += 1) {
      const { done, refused } = await desk.run(seed, 8);
      sum.done += done;
      sum.refused += refused;
    }
    // Both must happen often, or the runs prove nothing.
    expect(sum.done).toBeGreaterThan(150);
    expect(sum.refused).toBeGreaterThan(40);
  } finally {
    desk.close();
  }
});
