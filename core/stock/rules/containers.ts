import { addLocalDays } from '../../shared/time.ts';
import { type LocalDay, roundHalfAway } from '../../shared/units.ts';

/** A level read by eye or on a scale beside it: `level` of `of` parts. */
export type Level = { readonly level: number; readonly of: 8 | 100 };
/** On the scales with all that is in it, the empty container, and how heavy a litre is (not for what is kept by mass). */
export type Weight = {
  readonly grossMg: number;
  readonly tareMg: number;
  readonly gramsPerLitre: number | null;
};

/** So much more than it says may be in a container: they are filled on the safe side. Common practice, no source. */
export const OVERFILL = 0.1;

/** Base units left by a level, of a container that holds `holds` when full. */
export function restByLevel(holds: number, read: Level): number {
  return roundHalfAway((holds * read.level) / read.of);
}

/**
 * Base units left by weight: gross less tare, for a volume over the density. Below 0 where the empty container was
 * written down too heavy.
 * @example restByWeight('ul', { grossMg: 640_000, tareMg: 90_000, gramsPerLitre: 1100 }) //=> 500_000
 */
export function restByWeight(unit: 'ul' | 'mg', read: Weight): number {
  const netMg = read.grossMg - read.tareMg;
  return unit === 'mg' ? netMg : roundHalfAway((netMg * 1000) / (read.gramsPerLitre ?? 1000));
}

/**
 * What is kept after a level was read: an eye is good to half a step either side, so a book within that is confirmed
 * and stays; nothing left is nothing left.
 */
export function confirmedRest(holds: number, read: Level, book: number): number {
  const seen = restByLevel(holds, read);
  const near = Math.abs(book - seen) <= holds / (2 * read.of);
  return near && read.level > 0 ? book : seen;
}

/** A container in use: what it holds full, what was left beside which line of the item's ledger. */
export type Opened = {
  readonly id: string;
  readonly holds: number;
  readonly rest: number;
  readonly asOfId: number;
};

/**
 * What is left in each by now: draws booked since its reading come from the container opened first, and go on to the
 * next when that is empty; a correction gives back to the first that has room. `open` in the order they were opened,
 * `lines` the item's draws by number, signed as in the ledger.
 */
export function restsNow(
  open: readonly Opened[],
  lines: readonly { readonly id: number; readonly qty: number }[],
): ReadonlyMap<string, number> {
  const rests = new Map(open.map((c) => [c.id, c.rest] as const));
  for (const line of lines) {
    let left = line.qty;
    for (const c of open) {
      if (line.id <= c.asOfId || left === 0) continue;
      const rest = rests.get(c.id) ?? 0;
      const after = Math.min(Math.max(c.holds, rest), Math.max(0, rest + left));
      rests.set(c.id, after);
      left -= after - rest;
    }
  }
  return rests;
}

/** First day on which something opened on `openedDay` is out of its opened life; null = it keeps. */
export function throwDay(openedDay: LocalDay, openedLifeDays: number | null): LocalDay | null {
  return openedLifeDays === null ? null : addLocalDays(openedDay, openedLifeDays + 1);
}

/** What is still there of each delivery when the oldest is used first: `came` in the order they came. */
export function lotsLeft(onHand: number, came: readonly number[]): readonly number[] {
  let left = Math.max(0, onHand);
  return came
    .toReversed()
    .map((qty) => {
      const there = Math.min(qty, left);
      left -= there;
      return there;
    })
    .toReversed();
}
