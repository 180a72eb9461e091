import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookJob, shelfShop } from './shelf.ts';

const on = shelfShop();
const DAY = 86_400_000;
const NOON = Date.parse('2026-11-25T11:00:00Z');
const level = 250_000;

const open = () =>
  on.shop.write('stock.openContainer', { itemId: on.shelf.compound, holds: level }).containerId;
const seen = () => on.shop.read('stock.containers', { itemId: on.shelf.compound });

describe('two opened containers of an item', () => {
  /** What a person who stands beside the shelf would know of each bottle: the one opened first is used first. */
  type Bottle = { readonly id: string; rest: number };
  function draw(amount: number): void {
    const { stageId } = bookJob(on.shop, '2026-11-25', {});
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId: on.shelf.compound, amount }] });
  }
  const does = fc.record({
    what: fc.constantFrom('draw', 'read', 'empty', 'thrown', 'open', 'sealed'),
    n: fc.nat(1),
    share: fc.integer({ min: 1, max: 100 }),
  });

  it('keep what they hold when the other is read, used up or thrown away, or sealed ones are', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(does, { minLength: 10, maxLength: 16 }), async (steps) => {
        const bottles: Bottle[] = [];
        for (const { what, n, share } of steps) {
          on.shop.at(on.shop.now() + 60_000);
          const at = bottles[n % Math.max(1, bottles.length)];
          if (what === 'open' && bottles.length < 3) bottles.push({ id: open(), rest: level });
          else if (what === 'draw') {
            draw(share * 1000);
            let left = share * 1000;
            for (const b of bottles) {
              const took = Math.min(left, b.rest);
              b.rest -= took;
              left -= took;
            }
          } else if (what === 'sealed')
            on.shop.write('stock.waste', {
              ...{ itemId: on.shelf.compound, amount: share * 1000, why: 'out of date', sealed: true },
            });
          else if (at && what === 'read') {
            const read = { level: share, of: 100 } as const;
            at.rest = on.shop.write('stock.readContainer', { containerId: at.id, read }).rest;
          } else if (at && (what === 'empty' || what === 'thrown')) {
            on.shop.write('stock.closeContainer', { containerId: at.id, as: what, why: 'old' });
            bottles.splice(bottles.indexOf(at), 1);
          }
          expect((await seen()).map((c) => c.rest)).toEqual(bottles.map((b) => b.rest));
        }
        for (const { id } of bottles) on.shop.write('stock.closeContainer', { containerId: id, as: 'empty' });
      }),
      { numRuns: 5, endOnFailure: true },
    );
  });
  it('tell of each when somebody last looked into it', async () => {
    const opened = on.shop.now();
    const first = open();
    open();
    on.shop.at(NOON + DAY);
    on.shop.write('stock.readContainer', { containerId: first, read: { level: 50, of: 100 } });
    expect((await seen()).map((c) => [c.how, c.readMs])).toEqual([
      ['level', NOON + DAY],
      ['opened', opened],
    ]);
  });
});
