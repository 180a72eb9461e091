import { z } from 'zod';
import { problem } from './problems.ts';
import { MOST_TAX_PARTS, TAX_CATEGORIES, TAX_CODES } from './tax.ts';
import type { Minor, Ppm } from './units.ts';

/** What a line charges for. `labour.*` groups stages of work; text keys are `billing.line.<what>`. */
export const LINE_KINDS = [
  'labour.inspection',
  'labour.prepare',
  'labour.mask',
  'labour.sand',
  'labour.cut',
  'labour.refine',
  'labour.finish',
  'labour.interior',
  'materials',
  'package',
  'panel',
  'job',
  'minimum',
  'rush',
  'afterHours',
  'goods',
  'fee',
  'discount',
  'deposit',
  'voucher',
  'share',
  'billed',
] as const;
export type LineKind = (typeof LINE_KINDS)[number];

/** Lines for the work itself and what it used; all others stand beside it. */
export function isWorkLine({ what }: { readonly what: LineKind }): boolean {
  return (
    what === 'materials' ||
    what === 'package' ||
    what === 'panel' ||
    what === 'job' ||
    what.startsWith('labour.')
  );
}

/** A thing that was agreed beside the work: goods, and no part of what the work costs. */
export function isQuotedThing({ what, quoted }: Pick<BillLine, 'what' | 'quoted'>): boolean {
  return what === 'goods' && quoted !== undefined;
}

/** Minutes or pieces. Quantities are whole numbers of the unit. */
export const LINE_UNITS = ['min', 'piece'] as const;
export type LineUnit = (typeof LINE_UNITS)[number];

/** Several taxes on one sale, in the order they are reckoned. */
export const taxParts = z
  .array(
    z.strictObject({
      name: z.string().trim().min(1).max(60),
      ratePpm: z.int().min(1).max(1_000_000),
      onTax: z.boolean().default(false),
    }),
  )
  .min(2)
  .max(MOST_TAX_PARTS);

/**
 * The tax of a line. Only category S has a rate, and all but S and Z say why there is none.
 * @source EN 16931-1 BR-S-05, BR-Z-05, BR-E-05, BR-AE-05 (rates); BR-E-10, BR-AE-10, BR-O-10 (reasons)
 */
export const lineTax = z
  .strictObject({
    code: z.enum(TAX_CODES),
    category: z.enum(TAX_CATEGORIES),
    ratePpm: z.int().min(0).max(1_000_000),
    name: z.string().max(60),
    /** Why no tax is charged; '' where tax is charged. */
    reason: z.string().max(300),
    /** Where several taxes are due on one sale; `ratePpm` is then all of them together. */
    parts: taxParts.optional(),
  })
  .refine((t) => (t.category === 'S') === t.ratePpm > 0, {
    message: problem('rateOfCategory'),
    path: ['ratePpm'],
  })
  .refine((t) => t.category === 'S' || t.category === 'Z' || t.reason !== '', {
    message: problem('noReason'),
    path: ['reason'],
  });
export type LineTax = z.output<typeof lineTax>;

/** Ten thousand million in the currency's main unit: beyond it somebody's finger slipped, and sums would not be exact. */
const MOST_MINOR = 1_000_000_000_000;
export const TOO_MUCH = { message: problem('aboveAnyBill'), path: ['quantity'] };

/** Whether a line's amount is within what is reckoned exactly. */
export function isBillable(quantity: number, priceMinor: number, per = 1): boolean {
  return Math.abs((quantity * priceMinor) / per) <= MOST_MINOR;
}

/**
 * One line of a quote or invoice: `quantity` of a unit at `priceMinor` for each `per` of them, less `discountMinor`.
 * The amount is `quantity × priceMinor / per − discountMinor`, rounded half away from zero.
 * An agreed amount is written as `per = quantity`, so that price and amount are the same.
 */
export const billLine = z
  .strictObject({
    what: z.enum(LINE_KINDS),
    text: z.string().min(1).max(300),
    quantity: z.int().min(-1_000_000_000).max(1_000_000_000),
    unit: z.enum(LINE_UNITS),
    per: z.int().min(1).max(1_000_000_000),
    priceMinor: z.int().min(0).max(1_000_000_000_000),
    discountMinor: z.int().min(-1_000_000_000_000).max(1_000_000_000_000).default(0),
    tax: lineTax,
    /** The job that a line of a collective invoice is for. */
    ofJob: z.string().max(40).optional(),
    /** The price of the list that this thing was quoted at: it is billed with the work it was agreed beside. */
    quoted: z.string().max(40).optional(),
  })
  .refine((l) => isBillable(l.quantity, l.priceMinor, l.per), TOO_MUCH);
/**
 * `ofLine` stands on the lines of a credit note for part of a document: which of its lines, from 0, is credited.
 * `ofPart` stands on those of a partial invoice: which part of the agreed bill it bills, extras counted on behind lines.
 */
export type BillLine = z.output<typeof billLine> & { readonly ofLine?: number; readonly ofPart?: number };

/** An allowance (negative) or charge (positive) on the whole document, with the tax it falls under. */
export const billExtra = z.strictObject({
  text: z.string().min(1).max(300),
  amountMinor: z.int().min(-1_000_000_000_000).max(1_000_000_000_000),
  tax: lineTax,
});
export type BillExtra = z.output<typeof billExtra> & { readonly ofPart?: number };

/** Everything that decides the figures of a document. */
export type Bill = {
  readonly lines: readonly BillLine[];
  readonly extras: readonly BillExtra[];
  /** The amounts of lines and extras contain the tax. */
  readonly taxIncluded: boolean;
};

/** Tax of one category and rate on one document (BG-23). */
export type TaxShare = {
  readonly category: LineTax['category'];
  readonly ratePpm: Ppm;
  readonly name: string;
  readonly reason: string;
  readonly taxableMinor: Minor;
  readonly taxMinor: Minor;
  /** What it adds to the document's net; absent = `taxableMinor`. A further tax on the same sale adds nothing. */
  readonly netMinor?: Minor;
};

/** The figures of a document; names of the parts are those of EN 16931. All in minor units. */
export type BillTotals = {
  /** BT-131 of each line, without tax, in the order of the lines. */
  readonly lineNetMinor: readonly Minor[];
  /** Without tax, in the order of the extras. */
  readonly extraNetMinor: readonly Minor[];
  /** What is shown per line to somebody who sees prices with tax; equals `lineNetMinor` when prices are without. */
  readonly lineShownMinor: readonly Minor[];
  readonly taxes: readonly TaxShare[];
  /** BT-106 */
  readonly linesMinor: Minor;
  /** BT-107, as a positive amount */
  readonly allowancesMinor: Minor;
  /** BT-108 */
  readonly chargesMinor: Minor;
  /** BT-109 */
  readonly netMinor: Minor;
  /** BT-110 */
  readonly taxMinor: Minor;
  /** BT-112 */
  readonly withTaxMinor: Minor;
  /** BT-114 */
  readonly roundingMinor: Minor;
  /** BT-112 + BT-114: what the document asks for before anything paid (BT-113) is taken off. */
  readonly toPayMinor: Minor;
};
