import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openRandomDesk, type RandomDesk } from '../core/bays/randomDesk.ts';
import { attack, ENTRIES } from '../core/door/attack.ts';
import { type BusyShop, openBusyShop } from '../core/door/busyShop.ts';

/** The same as in the fast tests, with more runs and another seed each time; a failure names its seed. */
describe('whatever is sent, many times', () => {
  let shop: BusyShop;
  beforeAll(async () => {
    shop = await openBusyShop(40);
  });
  afterAll(() => shop.close());

  it.each(ENTRIES.map(([name, entry]) => [name, entry.kind] as const))('%s', async (name, kind) => {
    const slow = kind === 'document' || kind === 'task' || name === 'bays.offers';
    await attack(shop, name, { runs: slow ? 30 : 250 });
  });
});

describe('whatever the desk does at the board, for long', () => {
  let desk: RandomDesk;
  beforeAll(() => {
    desk = openRandomDesk();
  });
  afterAll(() => desk.close());

  it('leaves no plan that breaks a rule', async () => {
    const from = Math.floor(Math.random() * 1_000_000);
    let done = 0;
    for (let seed = from; seed < from + 40; seed += 1) {
      const run = await desk.run(seed, 40).catch((error: unknown) => {
        throw new Error(`seed ${seed}`, { cause: error });
      });
      done += run.done;
    }
    expect(done).toBeGreaterThan(400);
  });
});
