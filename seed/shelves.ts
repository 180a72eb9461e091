import type { Shelf } from './frame.ts';
import { actAs, DAY, type Stage } from './story.ts';

/** Below this share of the first day's shelf somebody orders. */
const LOW = 0.45;
/** In the last days before the demo's day nobody had time for the shelves or the wash. */
const NEGLECTED_DAYS = 9;

/** Every week: what runs low is bought up to where it began, dirty pads and towels go through the wash, worn ones are replaced. */
export function keepShelves(on: Stage, shelves: readonly Shelf[], startMs: number): void {
  const everyWeek = (now: number): void => {
    if (now > on.untilMs - NEGLECTED_DAYS * DAY) return;
    actAs(on, on.desk, now);
    restock(on, shelves);
    wash(on);
    on.events.at(now + 7 * DAY, everyWeek);
  };
  on.events.at(startMs + 7 * DAY, everyWeek);
}

function restock(on: Stage, shelves: readonly Shelf[]): void {
  const onHand = new Map(on.door.read('stock.listItems', {}).map((row) => [row.id, row.onHand]));
  const left = (s: Shelf): number => onHand.get(s.itemId) ?? 0;
  const full = (s: Shelf): number => s.item.pack * s.item.startPacks;
  const low = shelves.filter((s) => left(s) < full(s) * LOW);
  for (const [supplierId, rows] of Map.groupBy(low, (s) => s.supplierId)) {
    const lines = rows.map((s) => ({
      itemId: s.itemId,
      packs: Math.max(1, Math.ceil((full(s) - left(s)) / s.item.pack)),
      packSize: s.item.pack,
      priceMinor: Math.round(s.item.priceMinor * (1 + on.draw.int(-3, 5) / 100)),
    }));
    on.door.write('stock.receive', { supplierId, lines });
  }
}

/** Dirty pieces go in and come out clean; one in many is worn out and thrown away. */
function wash(on: Stage): void {
  for (const pad of on.door.read('stock.showPads', {})) {
    const worn = Math.floor(pad.dirty / Math.max(2, pad.usesPerLife));
    const { itemId } = pad;
    if (worn > 0) on.door.write('stock.padsRetire', { itemId, pieces: worn, from: 'dirty', why: 'worn out' });
    const pieces = pad.dirty - worn;
    if (pieces <= 0) continue;
    on.door.write('stock.padsWash', { itemId, pieces, step: 'in' });
    on.door.write('stock.padsWash', { itemId, pieces, step: 'out' });
  }
}
