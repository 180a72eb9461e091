import type { Shelf } from './frame.ts';
import { actAs, DAY, type Stage } from './story.ts';

/** Below this share of the first day's shelf somebody orders. */
const LOW = 0.45;

/** Every week: what runs low is bought up to where it began, dirty pads and towels go through the wash, worn ones are replaced. */
export function keepShelves(on: Stage, shelves: readonly Shelf[], fromMs: number, untilMs: number): void {
  const everyWeek = (now: number): void => {
    actAs(on, on.desk, now);
    const onHand = new Map(on.door.read('stock.listItems', {}).map((row) => [row.id, row.onHand]));
    const low = shelves.filter((s) => (onHand.get(s.itemId) ?? 0) < s.item.pack * s.item.startPacks * LOW);
    for (const [supplierId, lines] of Map.groupBy(low, (s) => s.supplierId)) {
      on.door.write('stock.receive', {
        supplierId,
        lines: lines.map(({ item, itemId }) => ({
          itemId,
          packs: Math.max(
            1,
            Math.ceil((item.pack * item.startPacks - (onHand.get(itemId) ?? 0)) / item.pack),
          ),
          packSize: item.pack,
          priceMinor: Math.round(item.priceMinor * (1 + on.draw.int(-3, 5) / 100)) as never,
        })),
      });
    }
    wash(on);
    if (now + 7 * DAY < untilMs) on.events.at(now + 7 * DAY, everyWeek);
  };
  on.events.at(fromMs, everyWeek);
}

/** Dirty pieces go in and come out clean; one in many is worn out and thrown away. */
function wash(on: Stage): void {
  for (const pad of on.door.read('stock.showBoard', { horizonDays: 7 }).pads) {
    const worn = Math.floor(pad.dirty / Math.max(2, pad.usesPerLife));
    if (worn > 0)
      on.door.write('stock.padsRetire', { itemId: pad.itemId, pieces: worn, from: 'dirty', why: 'worn out' });
    const pieces = pad.dirty - worn;
    if (pieces <= 0) continue;
    on.door.write('stock.padsWash', { itemId: pad.itemId, pieces, step: 'in' });
    on.door.write('stock.padsWash', { itemId: pad.itemId, pieces, step: 'out' });
  }
}
