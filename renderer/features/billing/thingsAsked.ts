import { type ListPriceRow, thingOf } from '#core/shared/listPrices.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';

/** A thing of the price list as it is asked for; null for a figure that is not there yet. */
export type ThingAsked = {
  readonly key: number;
  readonly priceId: string;
  readonly pieces: number | null;
  readonly discountMinor: number | null;
  /** Estimates that it does not go with; with all others it does. */
  readonly notIn: readonly string[];
};

/** Things that an option of an estimate takes, as the command takes them. */
export function thingsOf(things: readonly ThingAsked[], estimateId: string) {
  return things
    .filter((thing) => !thing.notIn.includes(estimateId))
    .map(({ priceId, pieces, discountMinor }) => ({
      ...{ priceId, pieces: pieces ?? 0, discountMinor: discountMinor ?? 0 },
    }));
}

type Prices = ShopPage['listPrices'];

/** The price of a thing that holds today, whichever of its dated prices names it; null where it is not sold. */
export function heldPrice(prices: Prices, priceId: string): Prices[number] | null {
  const named = prices.find((row) => row.id === priceId);
  const holds = prices.find((row) => named && row.holds && thingOf(row) === thingOf(named));
  return holds && holds.priceMinor !== null ? holds : null;
}

/** Things that can be added today, those of the counter before those of the bay. */
export function offeredThings(prices: Prices): readonly (ListPriceRow & { readonly priceMinor: number })[] {
  return prices.flatMap((row) =>
    row.holds && row.priceMinor !== null ? [{ ...row, priceMinor: row.priceMinor }] : [],
  );
}

/** One more of a thing: of the line that has it already, or a line of its own for the options that lack it. */
export function withOneMore(
  things: readonly ThingAsked[],
  priceId: string,
  ids: readonly string[],
): readonly ThingAsked[] {
  const own = things.filter((thing) => thing.priceId === priceId);
  const lacking = ids.filter((id) => own.every((thing) => thing.notIn.includes(id)));
  const last = own.at(-1);
  if (last && lacking.length === 0)
    return things.map((thing) => (thing === last ? { ...thing, pieces: (thing.pieces ?? 0) + 1 } : thing));
  const key = Math.max(0, ...things.map((thing) => thing.key)) + 1;
  const notIn = ids.filter((id) => !lacking.includes(id));
  return [...things, { key, priceId, pieces: 1, discountMinor: null, notIn }];
}

/**
 * The things that a next version begins with: those of the one before it, each with the options that had it. An
 * estimate that was no option takes those of the agreed option, else of the first.
 */
export function thingsBefore(
  { options, acceptance }: Pick<QuoteView, 'options' | 'acceptance'>,
  estimates: readonly Pick<EstimateView, 'id'>[],
): readonly ThingAsked[] {
  const agreed = options.find((o) => o.letter === acceptance?.letter) ?? options[0];
  const heldBy = estimates.map(({ id }) => ({
    id,
    keys: keysOf(options.find((o) => o.estimateId === id) ?? agreed),
  }));
  const found = new Map(options.flatMap((option) => [...keysOf(option)]));
  return [...found].map(
    ([name, line], at): ThingAsked => ({
      key: at + 1,
      priceId: line.quoted ?? '',
      pieces: line.quantity,
      discountMinor: line.discountMinor === 0 ? null : line.discountMinor,
      notIn: heldBy.filter(({ keys }) => !keys.has(name)).map(({ id }) => id),
    }),
  );
}

type Option = QuoteView['options'][number];
type Line = Option['bill']['lines'][number];

/** The things of an option by what they are, how many, and at what discount; the second of two alike by itself. */
function keysOf(option: Option | undefined): ReadonlyMap<string, Line> {
  const keys = new Map<string, Line>();
  for (const line of option?.bill.lines ?? []) {
    if (line.quoted === undefined) continue;
    let name = `${line.quoted} ${line.quantity} ${line.discountMinor}`;
    while (keys.has(name)) name += '+';
    keys.set(name, line);
  }
  return keys;
}
