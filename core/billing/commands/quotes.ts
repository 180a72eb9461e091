import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId, QuoteId } from '../../shared/ids.ts';
import type { QuoteBasis } from '../../shared/settings/billing.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { isTextKey, type PaperLocale, say } from '../../shared/text/say.ts';
import { panelName } from '../../shared/text/sayError.ts';
import { addLocalDays, localDayOf } from '../../shared/time.ts';
import type { Ppm } from '../../shared/units.ts';
import { OPTION_LETTERS } from '../../shared/views/billing.ts';
import type { EstimateView } from '../../shared/views/estimate.ts';
import type { Shop } from '../../shared/views/shop.ts';
import type { BodyStyle } from '../../shared/vocabulary.ts';
import { billedJob, billedVehicle, payerTagOf } from '../../views/billingParty.ts';
import { shopOf } from '../../views/shop.ts';
import { depositFor } from '../rules/deposit.ts';
import { type Titled, type TitlePart, titlesOf } from '../rules/optionTitles.ts';
import { totalsOf } from '../rules/totals.ts';
import {
  addQuote,
  type QuoteRecord,
  quoteOf,
  quotesOfJob,
  replaceOpenVersions,
  saveQuote,
} from '../store/quotes.ts';
import { lineTaxOn } from './lines.ts';
import { basisFor, type OptionPrice, type PriceAsk, priceOption } from './optionPrice.ts';

export type QuoteInput = {
  readonly jobId: JobId;
  readonly basis?: QuoteBasis | undefined;
  /** What each option is called, by its place; missing ones are named from the estimate. */
  readonly titles: readonly string[];
  /** Why there is a new version; '' for the first. */
  readonly reason: string;
} & Partial<PriceAsk>;

/**
 * Makes a quote, or the next version of it, from one to three estimates of a job: option A, B, C in their order.
 * An accepted version stands until the customer agrees to another; open versions are replaced.
 * @throws ESTIMATES_OF_OTHER_JOB · PACKAGE_NOT_OFFERED · PACKAGE_OTHER_WORK · PACKAGE_FIXED
 */
export function quoteEstimates(
  ctx: WriteCtx,
  input: QuoteInput,
  estimates: readonly EstimateView[],
): { readonly quoteId: QuoteId; readonly number: number; readonly version: number } {
  const shop = shopOf(ctx.db);
  const job = billedJob(ctx.db, input.jobId);
  if (estimates.some((e) => e.jobId !== job.id)) refuse('ESTIMATES_OF_OTHER_JOB', {});
  const day = localDayOf(ctx.now, shop.zone);
  const before = quotesOfJob(ctx.db, job.id)[0];
  const quoteId = ctx.newId<QuoteId>();
  const number = before?.number ?? nextNumber(ctx.db, 'quote');
  const version = (before?.version ?? 0) + 1;
  const { body } = billedVehicle(ctx.db, job.vehicleId);
  const locale = payerTagOf(ctx.db, job);
  const priced = { body, day, locale, tax: lineTaxOn(ctx, 'standard', day) };
  const prices = estimates.map((estimate, at) => priceOption(ctx, input, { ...priced, estimate, at }));
  const titles = titlesOf(estimates).map((own, i) => input.titles[i] ?? titleText(locale, body, own));
  addQuote(
    ctx.db,
    {
      id: quoteId,
      jobId: job.id,
      number,
      version,
      state: 'draft',
      basis: basisFor(input.basis, shop.settings.billing.quoteBasis, prices),
      validUntilDay: addLocalDays(day, shop.settings.billing.quoteValidDays),
      reason: input.reason,
      locale,
      ...{ madeMs: ctx.now, madeBy: ctx.actor?.personId ?? null },
    },
    prices.map((price, i) => optionRow(quoteId, shop, price, i, titles[i] ?? '')),
  );
  replaceOpenVersions(ctx.db, job.id, quoteId);
  ctx.changed(quoteId, 'quote', 'options');
  return { quoteId, number, version };
}

/** `one-step correction`, and `one-step correction, 8 panels` where another goes as far. */
function titleText(tag: string, body: BodyStyle, { wish, parts }: Titled): string {
  const locale = paperLocale(tag);
  const key = `word.wish.${wish}` as const;
  const said = isTextKey(key) ? say(locale, key) : '';
  return [said, ...parts.map((part) => partText(locale, body, part))].join(', ');
}

/** A title stays short: of panels that only one option has, the first few are named. */
const NAMED = 3;

function partText(locale: PaperLocale, body: BodyStyle, part: TitlePart): string {
  switch (part.what) {
    case 'interior':
      return say(locale, 'quote.part.interior', { on: part.on ? 1 : 0 });
    case 'protection':
      return say(locale, 'quote.part.protection', { kind: part.kind });
    case 'only': {
      const panels = part.panels.slice(0, NAMED).map((panel) => panelName(locale, panel, body));
      return say(locale, 'quote.part.only', { panels: panels.join(', '), n: part.panels.length });
    }
    default:
      return say(locale, `quote.part.${part.what}`, { n: part.n });
  }
}

function optionRow(
  quoteId: QuoteId,
  shop: Shop,
  { estimate, ...price }: OptionPrice,
  at: number,
  title: string,
): Parameters<typeof addQuote>[2][number] {
  const totals = totalsOf(price.bill);
  return {
    quoteId,
    letter: OPTION_LETTERS[at] ?? 'C',
    estimateId: estimate.id,
    title,
    stages: estimate.stages,
    ...price,
    totals,
    limits: estimate.limits,
    panels: estimate.panels,
    hours: estimate.hours,
    chargedMin: estimate.price.chargedMin,
    rates: estimate.price.rates,
    gainPpm: estimate.gainPpm as Ppm,
    toPayMinor: totals.toPayMinor,
    depositMinor: depositFor(totals.toPayMinor, shop.settings.billing.depositPpm as Ppm),
  };
}

/** The quote, if nobody changed it since it was read and it may still be answered. */
export function openQuote(ctx: WriteCtx, quoteId: QuoteId, revision: number): QuoteRecord {
  const row = quoteOf(ctx.db, quoteId);
  if (row.revision !== revision) refuse('STALE', { what: 'quote' });
  if (row.state !== 'draft' && row.state !== 'sent') refuse('QUOTE_STATE', { state: row.state });
  return row;
}

/** Marks a quote as handed over or sent. */
export function sendQuote(
  ctx: WriteCtx,
  input: { readonly quoteId: QuoteId; readonly revision: number },
): QuoteRecord {
  const row = openQuote(ctx, input.quoteId, input.revision);
  saveQuote(ctx.db, row.id, { state: 'sent', sentMs: ctx.now });
  ctx.changed(row.id, 'state');
  return row;
}

/** The customer said no, also to one that was only told them: like one agreed to, it counts as sent by then. */
export function declineQuote(
  ctx: WriteCtx,
  input: { readonly quoteId: QuoteId; readonly revision: number },
): { readonly quoteId: QuoteId } {
  const row = openQuote(ctx, input.quoteId, input.revision);
  saveQuote(ctx.db, row.id, { state: 'declined', sentMs: row.sentMs ?? ctx.now });
  ctx.changed(row.id, 'state');
  return { quoteId: row.id };
}
