import type { PurchaseOrderId } from '../core/shared/ids.ts';
import { seeded } from '../core/shared/random.ts';
import { instantOf } from '../core/shared/time.ts';
import type { LocalDay, Minor } from '../core/shared/units.ts';
import { ZONE } from './crew.ts';
import { type Draw, drawer } from './draw.ts';
import type { Shelf } from './frame.ts';
import { actAs, DAY, HOUR, type Stage } from './story.ts';

/** Below this share of the first day's shelf somebody orders: of what is used up, of what goes round. */
const LOW = { usedUp: 0.5, round: 0.85 } as const;
/** The weekly round was last made so many open days before the demo's: before the last mishap. */
const LAST_ROUND_DAYS = 2;
/** What the desk forgot to order of late, so that something is low on the demo's day. */
const FORGOTTEN_DAYS = 14;
const FORGOTTEN = ['Coating applicator block', 'Spray sealant', 'Tar and glue remover'];
/** The last round leaves this for somebody to count. */
const TO_COUNT = 'Masking tape, low tack, 25 mm';

/** Shelves with what is on order for each, and what its pieces have worn so far towards the next one thrown away. */
type Keeping = {
  readonly on: Stage;
  readonly shelves: readonly Shelf[];
  /** Chance of its own, so that what is bought leaves the rest of the story alone. */
  readonly draw: Draw;
  readonly coming: Map<string, number>;
  readonly worn: Map<string, number>;
};

/** Every week: what the book lost is counted, what runs low is ordered, dirty pads and towels are washed. */
export function keepShelves(on: Stage, shelves: readonly Shelf[], startMs: number): void {
  const keeping = { on, shelves, draw: drawer(seeded(7)), coming: new Map(), worn: new Map() };
  for (let at = lastRound(on); at > startMs + 3 * DAY; at -= 7 * DAY)
    on.events.at(on.floor.nextOpen(at), (now) => {
      actAs(on, on.desk, now);
      count(keeping);
      order(keeping, now);
      wash(keeping);
      if (now > on.untilMs - 7 * DAY) askCount(keeping);
    });
}

/** An hour after it opened on that day. */
function lastRound({ floor, untilMs }: Stage): number {
  let span = floor.openBefore(untilMs);
  for (let back = 0; back < LAST_ROUND_DAYS; back += 1) span = floor.openBefore(span.startMs - 1);
  return span.startMs + HOUR;
}

/** What the book asks to be counted: a little more was there than it says, a bottle nobody had written down. */
function count({ on, shelves }: Keeping): void {
  for (const { item, itemId } of shelves) {
    if (item.material === null) continue;
    const sheet = on.door.read('stock.showCount', { itemId });
    if (sheet.id === '') continue;
    const counted = sheet.book < 0 ? item.pack : sheet.book;
    on.door.write('stock.count', { itemId, counted, asOfMovementId: sheet.asOfMovementId });
  }
}

function askCount({ on, shelves }: Keeping): void {
  const itemIds = shelves.filter((s) => s.item.name === TO_COUNT).map((s) => s.itemId);
  on.door.write('stock.askCount', { itemIds });
}

/** What is low and not on its way yet, bought up to what lay there on the first day. */
function order(keeping: Keeping, now: number): void {
  const { on, shelves, coming } = keeping;
  const onHand = new Map(on.door.read('stock.listItems', {}).map((row) => [row.id, row.onHand]));
  const left = (s: Shelf): number => (onHand.get(s.itemId) ?? 0) + (coming.get(s.itemId) ?? 0);
  const full = (s: Shelf): number => s.item.pack * s.item.startPacks;
  const forgotten = now > on.untilMs - FORGOTTEN_DAYS * DAY ? FORGOTTEN : [];
  const low = shelves.filter((s) => {
    const share = s.item.usesPerLife === undefined ? LOW.usedUp : LOW.round;
    return left(s) < full(s) * share && !forgotten.includes(s.item.name);
  });
  for (const [supplierId, rows] of Map.groupBy(low, (s) => s.supplierId)) {
    const lines = rows.map((s) => ({
      ...{ supplierId, itemId: s.itemId },
      packs: Math.max(1, Math.ceil((full(s) - left(s)) / s.item.pack)),
    }));
    for (const made of on.door.write('stock.makeOrders', { lines }).orders) takeIn(keeping, made.id);
  }
}

/** What was ordered comes when it is due, at the price of that day. */
function takeIn(keeping: Keeping, orderId: PurchaseOrderId): void {
  const { on, coming } = keeping;
  const { dueDay, supplierId, lines } = on.door.read('stock.showOrder', { orderId });
  for (const l of lines) coming.set(l.itemId, (coming.get(l.itemId) ?? 0) + l.packs * l.packSize);
  on.events.at(comes(keeping, dueDay), (now) => {
    actAs(on, on.desk, now);
    const came = lines.map(({ id: lineId, itemId, packs, packSize, priceMinor }) => {
      coming.set(itemId, (coming.get(itemId) ?? 0) - packs * packSize);
      const price = Math.round(priceMinor * (1 + keeping.draw.int(-3, 5) / 100)) as Minor;
      return { lineId, itemId, packs, packSize, priceMinor: price };
    });
    on.door.write('stock.receive', { supplierId, orderId, lines: came });
  });
}

/** The morning of the day it is due, now and then a day later. */
function comes({ on, draw }: Keeping, dueDay: LocalDay): number {
  const late = draw.chance(0.2) ? DAY : 0;
  return on.floor.nextOpen(instantOf(dueDay, 540, ZONE) + late) + HOUR / 2;
}

/** Dirty pieces go in and come out clean; one in as many as a piece lasts uses is worn out and thrown away. */
function wash({ on, shelves, worn }: Keeping): void {
  for (const pad of on.door.read('stock.showPads', {})) {
    const { itemId, dirty } = pad;
    const life = shelves.find((s) => s.itemId === itemId)?.item.usesPerLife ?? 20;
    const wear = (worn.get(itemId) ?? 0) + dirty;
    const gone = Math.min(dirty, Math.floor(wear / life));
    worn.set(itemId, wear - gone * life);
    if (gone > 0) on.door.write('stock.padsRetire', { itemId, pieces: gone, from: 'dirty', why: 'worn out' });
    const pieces = dirty - gone;
    if (pieces <= 0) continue;
    on.door.write('stock.padsWash', { itemId, pieces, step: 'in' });
    on.door.write('stock.padsWash', { itemId, pieces, step: 'out' });
  }
}
