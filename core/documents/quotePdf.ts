import { count, hours, moneyPlain, percent, range } from '../shared/text/format.ts';
import { amountText, type PaperManner } from '../shared/text/manner.ts';
import { type QuoteCell, quoteLines, quoteTaxes } from '../shared/text/quoteLines.ts';
import { say } from '../shared/text/say.ts';
import { clock, date, dayOf } from '../shared/text/when.ts';
import type { QuoteOptionView, QuoteView } from '../shared/views/billing.ts';
import { mannerOf, openLetter, partyLines, small, vehicleLines } from './letter.ts';
import { finishPdf, sideBySide, space } from './pdfKit.ts';
import { type Column, type TableRow, table } from './pdfTable.ts';
import { drawAgreement, drawLevels, drawLimits, drawTerms } from './quoteTerms.ts';

/** The quote as a sheet of paper: options side by side, what will not come out, basis, dates, room to agree. */
export async function quotePdf(quote: QuoteView): Promise<Uint8Array> {
  const manner = mannerOf(quote.seller);
  const { locale } = manner;
  const number = { number: quote.number, version: quote.version };
  const title = say(locale, quote.version > 1 ? 'doc.quoteVersion' : 'doc.quote', number);
  const dates = { day: date(manner, quote.madeDay), until: date(manner, quote.validUntilDay) };
  const pdf = openLetter(quote.seller, {
    title,
    under: [say(locale, 'doc.quoteDates', dates), say(locale, 'doc.job', { number: quote.jobNumber })],
    createdMs: quote.madeMs,
  });
  sideBySide(pdf, [
    { share: 4, lines: partyLines(say(locale, 'doc.for'), quote.customer, locale) },
    { share: 4, lines: vehicleLines(quote.vehicle, locale) },
    { share: 4, lines: promiseLines(quote, manner) },
  ]);
  space(pdf, 12);
  if (quote.reason) {
    small(pdf, say(locale, 'doc.replaces', { reason: quote.reason }));
    space(pdf, 8);
  }
  table(pdf, columnsOf(quote, manner), rowsOf(quote, manner));
  space(pdf, 12);
  drawLevels(pdf, quote, manner);
  drawLimits(pdf, quote, manner);
  drawTerms(pdf, quote, manner);
  drawAgreement(pdf, quote, manner);
  return finishPdf(pdf);
}

/** Of a hundred such jobs, how many keep the date. Runs that all end well are no certainty, and paper claims none. */
function kept(manner: PaperManner, ppm: number): string {
  return count(manner, Math.min(MOST_KEPT, ppm / 10_000));
}
const MOST_KEPT = 99;

function promiseLines(
  quote: QuoteView,
  manner: PaperManner,
): { readonly text: string; readonly style?: 'small' | 'strong' }[] {
  const { locale } = manner;
  const heading = { text: say(locale, 'doc.promise'), style: 'small' } as const;
  if (quote.dropOffMin === null || quote.pickUpMin === null)
    return [heading, { text: say(locale, 'doc.noDates') }];
  const at = (min: number): string => onPaper(quote, manner, min);
  const lines = [
    heading,
    { text: say(locale, 'doc.dropOff', { when: at(quote.dropOffMin) }), style: 'strong' },
    { text: say(locale, 'doc.pickUp', { when: at(quote.pickUpMin) }), style: 'strong' },
  ] as const;
  const anew = pickUpLines(quote, manner);
  if (anew.length > 0) return [...lines, ...anew];
  if (quote.promisePpm === null) return [...lines];
  const share = kept(manner, quote.promisePpm);
  return [...lines, { text: say(locale, 'doc.promiseShare', { share }) }];
}

/** The day with its date: paper is read long after it was written. */
function onPaper({ madeMs }: QuoteView, manner: PaperManner, min: number): string {
  const ms = min * 60_000;
  return `${dayOf(manner, ms, madeMs)} ${clock(manner, ms)}`;
}

/** What each option does to the dates that are booked: the chance of the day of booking says nothing of other hours. */
function pickUpLines(quote: QuoteView, manner: PaperManner): { readonly text: string }[] {
  const { locale } = manner;
  return quote.options.flatMap(({ letter: own, pickUp }) => {
    if (!pickUp) return [];
    const letter = quote.options.length > 1 ? own : 'only';
    const { pickUpMin, agreedPpm, surePpm } = pickUp;
    if (pickUpMin === null || surePpm === null || agreedPpm === null)
      return [{ text: say(locale, 'doc.pickUpAnew', { letter }) }];
    const [holds, share] = [pickUpMin === quote.pickUpMin, (ppm: number) => kept(manner, ppm)];
    if (holds) return [{ text: say(locale, 'doc.pickUpHolds', { letter, share: share(agreedPpm) }) }];
    const later = { letter, when: onPaper(quote, manner, pickUpMin), share: share(surePpm) };
    return [{ text: say(locale, 'doc.pickUpLater', later) }];
  });
}

function columnsOf(quote: QuoteView, manner: PaperManner): Column[] {
  const { locale } = manner;
  const one = quote.options.length === 1 ? quote.options[0] : undefined;
  const head = one
    ? say(locale, 'doc.optionTitle', { letter: one.letter, title: one.title })
    : say(locale, 'doc.work');
  return [
    { title: head, share: 10 - quote.options.length },
    ...quote.options.flatMap((o): Column[] => [
      { title: say(locale, 'doc.hours'), share: 1.6, align: 'right' },
      { title: one ? manner.currency : `${o.letter} · ${manner.currency}`, share: 2.4, align: 'right' },
    ]),
  ];
}

type Cell = readonly [hours: string, amount: string];

function row(text: string, cells: readonly Cell[], more: Partial<TableRow> = {}): TableRow {
  return { cells: [text, ...cells.flat()], ...more };
}

function rowsOf(quote: QuoteView, manner: PaperManner): TableRow[] {
  const { locale } = manner;
  const all = quote.options;
  const plain = (minor: number): string => moneyPlain(manner, minor);
  const names = all.map((o): Cell => ['', o.title]);
  const titles = all.length > 1 ? [row('', names, { style: 'small', rule: 'none' })] : [];
  const included = all.some((o) => o.bill.taxIncluded);
  const net = row(
    say(locale, included ? 'doc.containsNet' : 'doc.beforeTax'),
    all.map((o): Cell => ['', plain(o.totals.netMinor)]),
    included ? {} : { rule: 'strong' },
  );
  const tax = [
    ...quoteTaxes(manner, all).map(({ label, minors }) =>
      row(
        label,
        minors.map((minor): Cell => ['', plain(minor)]),
      ),
    ),
    ...roundingRow(all, manner),
  ];
  const toPay = row(
    say(locale, 'doc.toPay'),
    all.map((o): Cell => [hours(manner, o.chargedMin).value, plain(o.totals.toPayMinor)]),
    { style: 'lead', rule: 'strong' },
  );
  return [
    ...titles,
    ...quoteLines(manner, all).map(({ label, cells }) =>
      row(
        label,
        cells.map((cell) => written(cell, cells, manner)),
      ),
    ),
    ...(included ? [toPay, { ...net, rule: 'strong' as const }, ...tax] : [net, ...tax, toPay]),
    ...factRows(all, manner),
  ];
}

/** Below the sum: hours as they may turn out, what comes out, when it is paid. */
function factRows(all: readonly QuoteOptionView[], manner: PaperManner): TableRow[] {
  const { locale } = manner;
  const plain = (minor: number): string => moneyPlain(manner, minor);
  // The range is wider than the hours' own column where three options stand side by side.
  const likely = all.map(
    (o): Cell => ['', range(hours(manner, o.hours.p20Min).value, hours(manner, o.hours.p80Min).value)],
  );
  const share = all.map(
    (o): Cell => ['', o.gainPpm > 0 ? amountText(percent(manner, o.gainPpm / 1_000_000)) : ''],
  );
  const deposit = all.map((o): Cell => ['', plain(o.depositMinor)]);
  const rest = all.map((o): Cell => ['', plain(o.totals.toPayMinor - o.depositMinor)]);
  return [
    row(say(locale, 'doc.likelyHours'), likely, { rule: 'strong' }),
    // A wash mends nothing, and says nothing of it.
    ...(all.some((o) => o.gainPpm > 0) ? [row(say(locale, 'doc.comesOut'), share)] : []),
    row(say(locale, 'doc.deposit'), deposit),
    row(say(locale, 'doc.atPickUp'), rest),
  ];
}

function roundingRow(options: readonly QuoteOptionView[], manner: PaperManner): TableRow[] {
  if (options.every((o) => o.totals.roundingMinor === 0)) return [];
  const cells = options.map((o): Cell => ['', moneyPlain(manner, o.totals.roundingMinor)]);
  return [row(say(manner.locale, 'doc.rounding'), cells)];
}

/** Hours where it is time, and the amount as the customer is shown it; dashes in an option that has it not. */
function written(cell: QuoteCell, row: readonly QuoteCell[], manner: PaperManner): Cell {
  if (!cell) return [row.some((other) => other && other.minutes > 0) ? '–' : '', '–'];
  return [cell.minutes === 0 ? '' : hours(manner, cell.minutes).value, moneyPlain(manner, cell.minor)];
}
