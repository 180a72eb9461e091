import { type BillLine, LINE_KINDS, type LineKind, type LineTax } from '#core/shared/bill.ts';
import { assertNever } from '#core/shared/errors.ts';
import { spread } from '#core/shared/money.ts';
import type { StagePlan } from '#core/shared/stagePlan.ts';
import type { Minor } from '#core/shared/units.ts';
import type { PriceView, StageRates } from '#core/shared/views/estimate.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { sum } from './totals.ts';

/** The line of a document that a stage's labour belongs to. */
export function lineKindOf(stage: StageKind): LineKind {
  switch (stage) {
    case 'inspection':
      return 'labour.inspection';
    case 'wash':
    case 'decontaminate':
    case 'clay':
      return 'labour.prepare';
    case 'mask':
      return 'labour.mask';
    case 'sand':
      return 'labour.sand';
    case 'cut':
      return 'labour.cut';
    case 'refine':
      return 'labour.refine';
    case 'panelWipe':
    case 'protect':
    case 'cure':
    case 'finalCheck':
    case 'handover':
      return 'labour.finish';
    case 'interior':
      return 'labour.interior';
    default:
      return assertNever(stage);
  }
}

/** Agreed labour of one stage: minutes and money that sum over the stages to the quote's. */
export type StageLabour = { readonly kind: StageKind; readonly minutes: number; readonly amountMinor: Minor };

/**
 * Splits a quote's charged minutes and labour money over its stages by each stage's mean minutes (to a thousandth), money
 * also by the rate of its hours, so that the parts sum to the whole exactly. Unattended stages (cure) take nothing.
 * The mean is the weight also where the shop charges by the median: the sum is the agreed one either way, and stages
 * differ in mean over median only by their own spread, a few per cent of a part.
 */
export function labourByStage(
  stages: readonly StagePlan[],
  price: Pick<PriceView, 'labourMinor' | 'chargedMin' | 'rates'>,
): StageLabour[] {
  const weights = stages.map((s) =>
    s.crew === 0 || s.p50Min === 0 ? 0 : Math.round(1000 * Math.exp(s.mu + s.sigma ** 2 / 2)),
  );
  if (stages.length === 0) return [];
  const minutes = spread(price.chargedMin as Minor, weights);
  const priced = stages.map((s, i) => (weights[i] ?? 0) * price.rates[s.kind]);
  const money = spread(price.labourMinor, priced);
  return stages.map((s, i) => ({
    kind: s.kind,
    minutes: minutes[i] ?? 0,
    amountMinor: money[i] ?? (0 as Minor),
  }));
}

/** Prices of an hour of the stages that somebody attends, each once, the lowest first. */
export function hourPrices(stages: readonly StagePlan[], rates: StageRates): Minor[] {
  const prices = stages.filter((s) => s.crew > 0).map((s) => rates[s.kind]);
  return [...new Set(prices)].sort((a, b) => a - b);
}

/** A line whose amount is agreed, whatever the hours: price and amount are the same. */
export function agreedLine(
  what: LineKind,
  text: string,
  minutes: number,
  amountMinor: Minor,
  tax: LineTax,
): BillLine {
  const timed = minutes > 0;
  const quantity = timed ? minutes : 1;
  return {
    what,
    text,
    quantity,
    unit: timed ? 'min' : 'piece',
    per: quantity,
    priceMinor: amountMinor,
    discountMinor: 0,
    tax,
  };
}

/** Lines of labour in the order of work, stages of one kind of line together; empty ones are left out. */
export function labourLines(
  labour: readonly StageLabour[],
  tax: LineTax,
  textOf: (what: LineKind) => string,
): BillLine[] {
  return LINE_KINDS.flatMap((what) => {
    const own = labour.filter((l) => lineKindOf(l.kind) === what);
    const minutes = sum(own.map((l) => l.minutes));
    const amount = sum(own.map((l) => l.amountMinor)) as Minor;
    return minutes === 0 && amount === 0 ? [] : [agreedLine(what, textOf(what), minutes, amount, tax)];
  });
}

/** All lines of a quoted option: labour by kind, then materials. */
export function quoteLines(
  stages: readonly StagePlan[],
  price: PriceView,
  tax: LineTax,
  textOf: (what: LineKind) => string,
): BillLine[] {
  const lines = labourLines(labourByStage(stages, price), tax, textOf);
  if (price.materialsMinor === 0) return lines;
  return [...lines, agreedLine('materials', textOf('materials'), 0, price.materialsMinor, tax)];
}
