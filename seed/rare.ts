import { seeded } from '../core/shared/random.ts';
import type { Minor } from '../core/shared/units.ts';
import { type Car, casting } from './cast.ts';
import { drawer } from './draw.ts';
import type { Shelf } from './frame.ts';
import type { Kind } from './kinds.ts';
import { alike, type Found, gaugeText, type Measured } from './paintwork.ts';
import { actAs, DAY, HOUR, MINUTE, type Stage } from './story.ts';
import { book } from './visit.ts';

/** Asked for so many days before the demo's: done by then, and still to come. */
const SANDED_DAYS = [41, 30, 4];
const SANDED: Kind = {
  ...{ purpose: 'correction', wish: 'twoStage', protection: 'coating' },
  ...{ interior: false, inspected: true, ceilingMinor: null },
};
/** Pits in the bonnet that no polishing reaches; film enough to sand them out. */
const PITTED: readonly Found[] = [
  { panel: 'bo', defect: 'etching', severity: 'moderate' },
  ...(['bo', 'ro', 'lfw', 'rfw'] as const).map((panel) => ({
    ...({ panel, defect: 'swirls', severity: 'moderate' } as const),
  })),
];
const FILM: readonly Measured[] = [
  { panel: 'bo', values: [138, 136, 139] },
  { panel: 'ro', values: [131, 133, 130] },
];
/** Hard going, done by two. */
const PAIRED = ['sand', 'cut'] as const;

/** What a chance of one in a hundred would leave out of a short story. */
export function rareThings(on: Stage, shelves: readonly Shelf[], thisYear: number): void {
  sanded(on, thisYear);
  opened(on, shelves);
}

/** A bonnet wet sanded by two, as its owner agreed. */
function sanded(on: Stage, thisYear: number): void {
  // Chance and people of its own, so that the rest of the story is left alone.
  const own: Stage = { ...on, draw: drawer(seeded(13)), turns: () => false };
  const cast = casting(on.door, own.draw, thisYear);
  for (const days of SANDED_DAYS)
    on.events.at(on.floor.nextOpen(on.untilMs - days * DAY) + 7 * MINUTE, (now) => {
      actAs(own, own.desk, now);
      const car = cast();
      const agreed = agreeToSand(own, car, now);
      book({ on: own, car, kind: SANDED, ...agreed, jobFactor: 1, drift: 1 }, now, now + DAY);
    });
}

function agreeToSand(on: Stage, car: Car, nowMs: number) {
  const { door } = on;
  const { customerId, vehicleId, customer: name } = car;
  const wish = 'Something ate into the bonnet over the summer.';
  const { jobId } = door.write('bookings.openJob', { customerId, vehicleId, purpose: 'correction', wish });
  actAs(on, on.technicians[0] ?? on.owner, nowMs);
  door.write('paint.startInspection', { jobId });
  for (const found of alike(PITTED)) door.write('paint.addFindings', { jobId, ...found });
  door.write('paint.pasteReadings', { jobId, text: gaugeText(FILM), right: true });
  const { wish: level, protection } = SANDED;
  door.write('estimate.fromInspection', { jobId, wish: level, protection });
  door.write('estimate.hands', { jobId, two: [...PAIRED] });
  const upToTenthUm =
    door.read('estimate.sanding', { jobId }).find((o) => o.panel === 'bo')?.highTenthUm ?? 0;
  const consent = { panel: 'bo', name, way: 'signature', upToTenthUm } as const;
  const { estimateId } = door.write('estimate.agreeSanding', { jobId, ...consent });
  actAs(on, on.desk, nowMs);
  const { quoteId } = door.write('billing.quoteEstimates', { jobId, estimateIds: [estimateId] });
  door.write('billing.sendQuote', { quoteId, revision: 1 });
  const said = { quoteId, revision: 2, letter: 'A', name, way: 'signature' } as const;
  return { jobId, depositMinor: door.write('billing.acceptQuote', said).depositMinor as Minor };
}

/** Opened so many days before. */
const OPENED = [
  { material: 'coating', days: 12 },
  { material: 'heavyCutCompound', days: 16 },
] as const;

/** Bottles in use: one whose opened life ends in days, one that keeps for long. */
function opened(on: Stage, shelves: readonly Shelf[]): void {
  const who = on.technicians[0] ?? on.owner;
  for (const { material, days } of OPENED) {
    const itemId = shelves.find((s) => s.item.material === material)?.itemId;
    if (!itemId) continue;
    on.events.at(on.floor.nextOpen(on.untilMs - days * DAY) + HOUR, (now) => {
      actAs(on, who, now);
      const { containerId } = on.door.write('stock.openContainer', { itemId });
      on.events.at(on.floor.openBefore(on.untilMs - DAY).startMs + HOUR, (then) => {
        actAs(on, who, then);
        const seen = on.door.read('stock.containers', { itemId }).find((c) => c.id === containerId);
        // Held against the light: to an eighth of what the book says.
        const level = seen ? Math.max(1, Math.round((8 * seen.rest) / seen.holds)) : 1;
        on.door.write('stock.readContainer', { containerId, read: { level, of: 8 } });
      });
    });
  }
}
