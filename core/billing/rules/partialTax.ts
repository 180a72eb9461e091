import type { Bill, BillLine, BillTotals, LineTax } from '#core/shared/bill.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';
import { amountsOf, nowOf } from './partial.ts';
import { sum, taxKey, totalsOf } from './totals.ts';

/** How far the amounts of a partial invoice are moved at most so that its tax comes out even, in minor units. */
export const MOST_EVENED = 60;

/** How far, by the number of taxes that are billed: with each more there are more ways to try. */
const REACH: readonly number[] = [0, MOST_EVENED, 25, 6, 3];

/** What falls under one tax: what is left of it and billed now; the part that is moved, how far down and up it may be. */
type Group = {
  readonly tax: LineTax;
  readonly leftMinor: number;
  readonly nowMinor: number;
  readonly carrier: number;
  readonly from: number;
  readonly to: number;
};

/**
 * The same amounts, moved by as few minor units as it takes for net and tax to come out even by rate: those of this
 * document and of all that is left after it sum to those of what was left before it. Each document rounds its own tax,
 * so that without this the sum could be a unit off. What is done in part is moved first, what is done wholly only down,
 * and nothing beyond its line. Where nothing near is even the amounts stay: the unit then stands in the rounding amount
 * of the last one.
 * @param left what was not billed yet of each part
 * @source EN 16931-1 BR-CO-17 (tax of a document from its own sum); moving the amounts is this program's own
 */
function evened(bill: Bill, left: readonly Minor[], now: readonly Minor[]): Minor[] {
  const parts = [...bill.lines, ...bill.extras];
  const keys = [...new Set(parts.map((p) => taxKey(p.tax)))];
  const groups = keys.map((key) => groupOf(parts, key, left, now));
  const own = groups.map((group) => movesOf([group]).find((moves) => isEven(bill, [group], moves))?.[0] ?? 0);
  const moves = isEven(bill, groups, own) ? own : movesOf(groups).find((all) => isEven(bill, groups, all));
  const amounts = [...now];
  groups.forEach(({ carrier }, g) => {
    amounts[carrier] = ((amounts[carrier] ?? 0) + (moves?.[g] ?? 0)) as Minor;
  });
  return amounts;
}

/** Whether this document and the rest after it sum to what was left before, by rate, when these are moved. */
function isEven(bill: Bill, groups: readonly Group[], moves: readonly number[]): boolean {
  const figures = (of: (group: Group, g: number) => number): BillTotals => figuresOf(bill, groups, of);
  const moved = (group: Group, g: number): number => group.nowMinor + (moves[g] ?? 0);
  const rest = figures((group, g) => group.leftMinor - moved(group, g));
  return addsUp(
    figures(moved),
    rest,
    figures((group) => group.leftMinor),
  );
}

/**
 * What a partial invoice bills of each part of an agreed bill when its lines are billed up to their shares, evened out.
 * The few units that evening out left of a line are not billed by themselves: they come with more of it, or at the end.
 * @param billed on partial invoices so far
 * @param shares of each line, with what was billed before
 */
export function partialAmounts(bill: Bill, billed: readonly Minor[], shares: readonly Ppm[]): Minor[] {
  const left = amountsOf(bill).map((amount, i) => (amount - (billed[i] ?? 0)) as Minor);
  const now = nowOf(bill, billed, shares);
  const isLast = now.every((amount, i) => amount === left[i]);
  if (isLast) return now;
  const isLeftOver = (amount: Minor, i: number): boolean =>
    Math.abs(amount) <= MOST_EVENED && (billed[i] ?? 0) !== 0;
  const worth = now.map((amount, i) => (isLeftOver(amount, i) ? 0 : amount) as Minor);
  return evened(bill, left, worth);
}

/** The part of a tax that is moved: the largest that is billed in part and has room, else the largest that is billed. */
function groupOf(
  parts: readonly { readonly tax: LineTax }[],
  key: string,
  left: readonly Minor[],
  now: readonly Minor[],
): Group {
  const own = parts.flatMap(({ tax }, i) => (taxKey(tax) === key ? [i] : []));
  const size = (i: number): number => Math.abs(now[i] ?? 0);
  const room = (i: number): number => Math.abs(left[i] ?? 0) - size(i);
  const inPart = (i: number): number => (Math.min(size(i), room(i)) >= MOST_EVENED ? 1 : 0);
  const carrier = [...own].sort((a, b) => inPart(b) - inPart(a) || size(b) - size(a) || a - b)[0] ?? 0;
  const [less, more] = [Math.max(0, size(carrier) - 1), size(carrier) === 0 ? 0 : room(carrier)];
  const below = (now[carrier] ?? 0) < 0;
  const tax = parts[carrier]?.tax as LineTax;
  const [from, to] = tax.ratePpm === 0 ? [0, 0] : below ? [-more, less] : [-less, more];
  const of = (amounts: readonly Minor[]): number => sum(own.map((i) => amounts[i] ?? 0));
  return { tax, leftMinor: of(left), nowMinor: of(now), carrier, from: from || 0, to: to || 0 };
}

/** Every combination within reach, the smallest first. */
function movesOf(groups: readonly Group[]): readonly (readonly number[])[] {
  const reach = REACH[groups.filter(({ from, to }) => from < to).length] ?? 1;
  const all = groups.reduce<readonly (readonly number[])[]>(
    (found, { from, to }) => {
      const first = Math.max(-reach, from);
      const steps = Array.from({ length: Math.min(reach, to) - first + 1 }, (_, i) => first + i);
      return found.flatMap((moves) => steps.map((step) => [...moves, step]));
    },
    [[]],
  );
  const far = (moves: readonly number[]): number => moves.reduce((t, move) => t + Math.abs(move), 0);
  return [...all].sort((a, b) => far(a) - far(b));
}

/** The figures of one sum for each tax. */
function figuresOf(
  bill: Bill,
  groups: readonly Group[],
  of: (group: Group, g: number) => number,
): BillTotals {
  const lines = groups.map((group, g): BillLine => {
    const amount = of(group, g);
    const quantity = amount < 0 ? -1 : 1;
    const head = { what: 'job', text: '', quantity, unit: 'piece', per: 1, discountMinor: 0 } as const;
    return { ...head, priceMinor: Math.abs(amount), tax: group.tax };
  });
  return totalsOf({ lines, extras: [], taxIncluded: bill.taxIncluded });
}

function addsUp(part: BillTotals, rest: BillTotals, whole: BillTotals): boolean {
  return whole.taxes.every((row, i) => {
    const [a, b] = [part.taxes[i], rest.taxes[i]];
    return (
      (a?.taxMinor ?? 0) + (b?.taxMinor ?? 0) === row.taxMinor &&
      (a?.taxableMinor ?? 0) + (b?.taxableMinor ?? 0) === row.taxableMinor
    );
  });
}
