import { type BillLine, isBillable, isQuotedThing, type LineTax } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import { type ListPriceRow, type SaidThing, saidThing, thingOf } from '#core/shared/listPrices.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import { lineAmount } from './totals.ts';

/** A thing of the price list as an option is asked for with it; `discountMinor` is off all of its pieces together. */
export type ThingAsk = {
  readonly priceId: string;
  readonly pieces: number;
  readonly discountMinor: Minor;
};

/** More pieces of one thing than this are asked about once: a digit too many looks just like it. Common practice, no source. */
const MOST_PIECES = 20;

export type OfferedThing = ListPriceRow & { readonly priceMinor: Minor };

/**
 * The thing that a row of the list is a price of, at the price that stands on a day.
 * @throws NOT_FOUND · THING_NOT_YET where its first price begins later · THING_ENDED where it is no longer offered
 */
export function thingOn(rows: readonly ListPriceRow[], priceId: string, day: LocalDay): OfferedThing {
  const asked = rows.find((row) => row.id === priceId);
  if (!asked) return refuse('NOT_FOUND', { what: 'listPrice', id: priceId });
  const own = rows.filter((row) => thingOf(row) === thingOf(asked));
  const begun = own.filter((row) => row.fromDay <= day).sort((a, b) => (a.fromDay < b.fromDay ? 1 : -1));
  const holds = begun[0];
  const said: SaidThing = saidThing(asked);
  if (!holds) return refuse('THING_NOT_YET', { ...said, fromDay: asked.fromDay });
  const { priceMinor } = holds;
  return priceMinor === null
    ? refuse('THING_ENDED', { ...said, endedDay: holds.fromDay })
    : { ...holds, priceMinor };
}

/**
 * The line of a thing: goods stand beside the work, a panel at its price is work.
 * @throws THING_MANY unless that many are meant · THING_DISCOUNT when it takes off more than they cost · THING_TOO_MUCH
 */
export function thingLine(
  thing: OfferedThing,
  ask: Pick<ThingAsk, 'pieces' | 'discountMinor'> & { readonly manyMeant: boolean },
  text: string,
  tax: LineTax,
): BillLine {
  const { pieces: quantity, discountMinor } = ask;
  const said: SaidThing = saidThing(thing);
  if (quantity > MOST_PIECES && !ask.manyMeant) refuse('THING_MANY', { ...said, quantity });
  if (!isBillable(quantity, thing.priceMinor)) refuse('THING_TOO_MUCH', { ...said, quantity });
  const line: BillLine = {
    what: thing.kind === 'item' ? 'goods' : 'panel',
    ...{ text, quantity, unit: 'piece', per: 1, priceMinor: thing.priceMinor, discountMinor, tax },
    quoted: thing.id,
  };
  const wholeMinor = (quantity * thing.priceMinor) as Minor;
  if (lineAmount(line) < 0) refuse('THING_DISCOUNT', { ...said, wholeMinor, discountMinor });
  return line;
}

/** Lines of work with the things that were agreed beside it. Where no work is billed nothing was handed over with it. */
export function withThings(work: readonly BillLine[], agreed: readonly BillLine[]): readonly BillLine[] {
  return work.length === 0 ? work : [...work, ...agreed.filter(isQuotedThing)];
}
