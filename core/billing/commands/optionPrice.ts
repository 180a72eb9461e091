import type { WriteCtx } from '../../context.ts';
import { type Bill, type BillLine, isWorkLine, type LineTax } from '../../shared/bill.ts';
import { refuse } from '../../shared/errors.ts';
import { type ListPriceRow, pricedPanels } from '../../shared/listPrices.ts';
import { fitsPackage } from '../../shared/packages.ts';
import type { QuoteBasis } from '../../shared/settings/billing.ts';
import { money } from '../../shared/text/format.ts';
import { paperLocale, paperManner } from '../../shared/text/papers.ts';
import { type PaperLocale, say } from '../../shared/text/say.ts';
import { panelName } from '../../shared/text/sayError.ts';
import type { LocalDay, Ppm } from '../../shared/units.ts';
import type { EstimateView } from '../../shared/views/estimate.ts';
import type { ChargeShares } from '../../shared/views/shop.ts';
import type { BodyStyle } from '../../shared/vocabulary.ts';
import { listPriceRows, listPricesOn } from '../../views/listPrices.ts';
import { chargesOn, packageOn, shopOf } from '../../views/shop.ts';
import { withCharges } from '../rules/charges.ts';
import { withLabourTax } from '../rules/labourTax.ts';
import { panelLines } from '../rules/panelPrices.ts';
import { type ThingAsk, thingLine, thingOn, withThings } from '../rules/quotedThings.ts';
import { agreedLine, quoteLines } from '../rules/quoteLines.ts';
import { labourTaxOn, lineTaxOn, lineText } from './lines.ts';

/** What somebody asked for beside the work. */
export type PriceAsk = {
  readonly rush: boolean;
  readonly afterHours: boolean;
  /** The package that an option is priced by, by its place; null or missing = by its hours and materials. */
  readonly packageIds: readonly (string | null)[];
  /** Whether an option is priced by the panel, from the shop's list; a package goes before it. */
  readonly byPanel: readonly boolean[];
  /** Things of the price list that go with an option, by its place. */
  readonly things: readonly (readonly ThingAsk[])[];
  /** Asked about, and so many pieces of one thing are meant. */
  readonly manyThings: boolean;
};

/** What an option asks for, and the charges it was agreed with. */
export type OptionPrice = {
  readonly bill: Bill;
  readonly charges: ChargeShares;
  readonly estimate: EstimateView;
};

type Priced = {
  readonly estimate: EstimateView;
  readonly at: number;
  readonly body: BodyStyle;
  readonly day: LocalDay;
  readonly tax: LineTax;
  /** The tag that the quote is written in. */
  readonly locale: string;
};

/** The basis of a quote: a package and a price by the panel are fixed. @throws PACKAGE_FIXED */
export function basisFor(
  asked: QuoteBasis | undefined,
  usual: QuoteBasis,
  options: readonly OptionPrice[],
): QuoteBasis {
  const packed = options.some(({ bill }) =>
    bill.lines.some((l) => l.what === 'package' || l.what === 'panel'),
  );
  if (packed && asked !== undefined && asked !== 'fixed') refuse('PACKAGE_FIXED', {});
  return packed ? 'fixed' : (asked ?? usual);
}

/**
 * Prices one option: its work, or the package it is, and what the shop charges beside it on the day. A package has no
 * least: its price is what it is.
 * @throws PACKAGE_NOT_OFFERED · PACKAGE_OTHER_WORK · PANEL_UNPRICED · NOTHING_TO_BILL · NOT_FOUND · THING_OTHER_TAX ·
 * THING_NOT_YET · THING_ENDED · THING_MANY · THING_TOO_MUCH · THING_DISCOUNT · NO_TAX
 */
export function priceOption(ctx: WriteCtx, ask: Partial<PriceAsk>, priced: Priced): OptionPrice {
  const { estimate, tax, locale, day } = priced;
  const packageId = ask.packageIds?.[priced.at] ?? null;
  const own = chargesOn(ctx.db, day);
  const charges: ChargeShares = {
    minimumMinor: packageId === null ? own.minimumMinor : (0 as typeof own.minimumMinor),
    rushPpm: ask.rush ? own.rushPpm : (0 as Ppm),
    afterHoursPpm: ask.afterHours ? own.afterHoursPpm : (0 as Ppm),
  };
  const things = thingLines(ctx, ask, priced);
  const work = [...workLines(ctx, ask, priced), ...things.filter(isWorkLine)];
  const charged = withCharges(work, charges, tax, lineText(locale));
  const taxed = withLabourTax(charged, packageId === null ? labourTaxOn(ctx, day) : null);
  const lines = withThings(taxed, things);
  return { bill: { lines, extras: [], taxIncluded: estimate.price.taxIncluded }, charges, estimate };
}

function workLines(ctx: WriteCtx, ask: Partial<PriceAsk>, priced: Priced): readonly BillLine[] {
  const { estimate, at, tax, locale } = priced;
  const packageId = ask.packageIds?.[at] ?? null;
  if (packageId !== null) return [packageLine(ctx, packageId, priced)];
  if (ask.byPanel?.[at]) return byPanel(ctx, priced);
  return quoteLines(estimate.stages, estimate.price, tax, lineText(locale));
}

/** Things are priced as the list stands on the day of the quote, with its kind of tax. */
function thingLines(ctx: WriteCtx, ask: Partial<PriceAsk>, priced: Priced): readonly BillLine[] {
  const { estimate, at, body, day } = priced;
  const asked = ask.things?.[at] ?? [];
  if (asked.length === 0) return [];
  const { pricesIncludeTax } = shopOf(ctx.db).settings.billing;
  if (estimate.price.taxIncluded !== pricesIncludeTax)
    refuse('THING_OTHER_TAX', { withTax: pricesIncludeTax });
  const list = listPriceRows(ctx.db);
  const locale = paperLocale(priced.locale);
  return asked.map((one) => {
    const thing = thingOn(list, one.priceId, day);
    const text = thing.kind === 'item' ? thing.name : panelText(locale, thing, body);
    const manyMeant = ask.manyThings ?? false;
    return thingLine(thing, { ...one, manyMeant }, text, lineTaxOn(ctx, thing.tax, day));
  });
}

function panelText(locale: PaperLocale, { level, panel }: ListPriceRow, body: BodyStyle): string {
  const text = say(locale, 'billing.onePanelLine', {
    level: level === '' ? '' : say(locale, `word.level.${level}`),
    panel: panel === '' ? 'every' : panelName(locale, panel, body),
  });
  return text.charAt(0).toLocaleUpperCase(locale) + text.slice(1);
}

function byPanel(ctx: WriteCtx, { estimate, body, day, tax, locale: tag }: Priced): readonly BillLine[] {
  const manner = paperManner({ ...shopOf(ctx.db), locale: tag });
  const { locale } = manner;
  const list = listPricesOn(ctx.db, day);
  return panelLines(pricedPanels(estimate.panels, list), tax, ({ level, priceMinor, panels }) =>
    say(locale, 'billing.panelLine', {
      level: say(locale, `word.level.${level}`),
      each: money(manner, priceMinor),
      n: panels.length,
      panels: panels.length > MOST_NAMED ? 'none' : panels.map((p) => panelName(locale, p, body)).join(', '),
    }),
  );
}

/** A line names so many panels; of more it says how many. */
const MOST_NAMED = 8;

function packageLine(ctx: WriteCtx, packageId: string, priced: Priced): BillLine {
  const { estimate, day, tax, body } = priced;
  const pack = packageOn(ctx.db, packageId, day);
  if (!fitsPackage(pack, estimate, body)) refuse('PACKAGE_OTHER_WORK', { name: pack.name });
  return agreedLine('package', pack.name, estimate.price.chargedMin, pack.priceMinor, tax);
}
