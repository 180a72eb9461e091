import { LINE_KINDS, type LineKind } from '../shared/bill.ts';
import { count, hours, money, moneyPlain, percent, range } from '../shared/text/format.ts';
import { amountText, type Manner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { panelName } from '../shared/text/sayError.ts';
import { date, dayTime, exact } from '../shared/text/when.ts';
import type { QuoteOptionView, QuoteView } from '../shared/views/billing.ts';
import { LEVELS } from '../shared/vocabulary.ts';
import { mannerOf, openLetter, partyLines, small, vehicleLines } from './letter.ts';
import { sharedLimits } from './limits.ts';
import { figure, finishPdf, type Pdf, paragraph, STYLES, sideBySide, space } from './pdfKit.ts';
import { type Column, type TableRow, table } from './pdfTable.ts';
import { drawLine } from './pdfText.ts';

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
    { share: 3, lines: partyLines(say(locale, 'doc.for'), quote.customer, locale) },
    { share: 4, lines: vehicleLines(quote.vehicle, locale) },
    { share: 4, lines: promiseLines(quote, manner) },
  ]);
  space(pdf, 12);
  if (quote.reason) small(pdf, say(locale, 'doc.replaces', { reason: quote.reason }));
  table(pdf, columnsOf(quote, manner), rowsOf(quote, manner));
  space(pdf, 12);
  drawLevels(pdf, quote, manner);
  drawLimits(pdf, quote, manner);
  drawTerms(pdf, quote, manner);
  drawAgreement(pdf, quote, manner);
  return finishPdf(pdf);
}

function promiseLines(
  quote: QuoteView,
  manner: Manner,
): { readonly text: string; readonly style?: 'small' | 'strong' }[] {
  const { locale } = manner;
  const heading = { text: say(locale, 'doc.promise'), style: 'small' } as const;
  if (quote.dropOffMin === null || quote.pickUpMin === null)
    return [heading, { text: say(locale, 'doc.noDates') }];
  const at = (min: number): string => dayTime(manner, min * 60_000);
  const lines = [
    heading,
    { text: say(locale, 'doc.dropOff', { when: at(quote.dropOffMin) }), style: 'strong' },
    { text: say(locale, 'doc.pickUp', { when: at(quote.pickUpMin) }), style: 'strong' },
  ] as const;
  if (quote.promisePpm === null) return [...lines];
  const share = count(manner, quote.promisePpm / 10_000);
  return [...lines, { text: say(locale, 'doc.promiseShare', { share }) }];
}

function columnsOf(quote: QuoteView, manner: Manner): Column[] {
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

function rowsOf(quote: QuoteView, manner: Manner): TableRow[] {
  const { locale } = manner;
  const all = quote.options;
  const plain = (minor: number): string => moneyPlain(manner, minor);
  const titles =
    all.length > 1
      ? [
          row(
            '',
            all.map((o): Cell => ['', o.title]),
            { style: 'small', rule: 'none' },
          ),
        ]
      : [];
  const likely = all.map(
    (o): Cell => [range(hours(manner, o.hours.p20Min).value, hours(manner, o.hours.p80Min).value), ''],
  );
  const taxName = all[0]?.totals.taxes[0]?.name ?? say(locale, 'doc.tax');
  return [
    ...titles,
    ...kindsOf(all).map((what) =>
      row(
        textOf(all, what),
        all.map((o) => lineCell(o, what, manner)),
      ),
    ),
    row(
      say(locale, 'doc.beforeTax'),
      all.map((o): Cell => [hours(manner, o.chargedMin).value, plain(o.totals.netMinor)]),
      { rule: 'strong' },
    ),
    row(say(locale, 'doc.likelyHours'), likely),
    row(
      taxName,
      all.map((o): Cell => ['', plain(o.totals.taxMinor)]),
    ),
    ...(all.some((o) => o.totals.roundingMinor !== 0)
      ? [
          row(
            say(locale, 'doc.rounding'),
            all.map((o): Cell => ['', plain(o.totals.roundingMinor)]),
          ),
        ]
      : []),
    row(
      say(locale, 'doc.toPay'),
      all.map((o): Cell => ['', plain(o.totals.toPayMinor)]),
      { style: 'lead', rule: 'strong' },
    ),
    row(
      say(locale, 'doc.deposit'),
      all.map((o): Cell => ['', plain(o.depositMinor)]),
      { rule: 'strong' },
    ),
    row(
      say(locale, 'doc.atPickUp'),
      all.map((o): Cell => ['', plain(o.totals.toPayMinor - o.depositMinor)]),
    ),
    row(
      say(locale, 'doc.comesOut'),
      all.map((o): Cell => ['', amountText(percent(manner, o.gainPpm / 1_000_000))]),
    ),
  ];
}

function kindsOf(options: readonly QuoteOptionView[]): LineKind[] {
  return LINE_KINDS.filter((what) => options.some((o) => o.bill.lines.some((l) => l.what === what)));
}

function textOf(options: readonly QuoteOptionView[], what: LineKind): string {
  for (const option of options) {
    const line = option.bill.lines.find((l) => l.what === what);
    if (line) return line.text;
  }
  return '';
}

/** Lines of a kind together: hours where it is time, and the amount as the customer is shown it. */
function lineCell(option: QuoteOptionView, what: LineKind, manner: Manner): Cell {
  let minutes = 0;
  let amount = 0;
  let found = false;
  option.bill.lines.forEach((line, i) => {
    if (line.what !== what) return;
    found = true;
    if (line.unit === 'min') minutes += line.quantity;
    amount += option.totals.lineShownMinor[i] ?? 0;
  });
  if (!found) return ['–', '–'];
  return [minutes === 0 ? '' : hours(manner, minutes).value, moneyPlain(manner, amount)];
}

/** How far each panel is taken, by level, for each option. */
function drawLevels(pdf: Pdf, quote: QuoteView, manner: Manner): void {
  const { locale } = manner;
  const options = quote.options.filter((o) => o.panels.length > 0);
  if (options.length === 0) return;
  paragraph(pdf, say(locale, 'doc.levels'), { style: 'strong', tag: 'H2' });
  for (const option of options) {
    if (quote.options.length > 1) small(pdf, say(locale, 'doc.option', { letter: option.letter }));
    for (const level of [...LEVELS].reverse()) {
      const named = option.panels
        .filter((p) => p.level === level)
        .map((p) => panelName(locale, p.panel, quote.vehicle.body));
      const word = say(locale, `word.level.${level}`);
      if (named.length > 0)
        small(pdf, say(locale, 'doc.levelLine', { level: word, panels: named.join(', ') }));
    }
  }
  space(pdf, 10);
}

function drawLimits(pdf: Pdf, quote: QuoteView, manner: Manner): void {
  const { locale } = manner;
  paragraph(pdf, say(locale, 'doc.limits'), { style: 'strong', tag: 'H2' });
  const limits = sharedLimits(manner, quote.options, quote.vehicle.body);
  if (limits.length === 0) paragraph(pdf, say(locale, 'doc.noLimits'));
  limits.forEach((limit, i) => {
    const only = limit.letters.length < quote.options.length;
    const where = only ? `${say(locale, 'doc.limitsAlso', { letters: limit.letters.join(', ') })} ` : '';
    paragraph(pdf, `${i + 1}. ${where}${limit.text}`, { tag: 'LI' });
  });
  space(pdf, 10);
}

function drawTerms(pdf: Pdf, quote: QuoteView, manner: Manner): void {
  const { locale } = manner;
  const first = quote.options[0];
  const line = first?.bill.lines.find((l) => l.unit === 'min' && l.quantity > 0);
  const hour = line ? Math.round((line.priceMinor * 60) / line.per) : 0;
  const rate = money(manner, hour);
  small(pdf, say(locale, `doc.basis.${quote.basis}`, quote.basis === 'byTime' ? { rate } : {}));
  small(pdf, say(locale, first?.bill.taxIncluded ? 'doc.withTax' : 'doc.withoutTax'));
  small(pdf, say(locale, 'doc.caution.clearCoat'));
  small(pdf, say(locale, 'doc.caution.respray'));
  space(pdf, 18);
}

function drawAgreement(pdf: Pdf, quote: QuoteView, manner: Manner): void {
  const { locale } = manner;
  if (quote.acceptance) {
    const { letter, name, way, atMs } = quote.acceptance;
    const values = { letter, name, way: say(locale, `doc.way.${way}`), when: exact(manner, atMs) };
    paragraph(pdf, say(locale, 'doc.accepted', values), { style: 'strong' });
    return;
  }
  const fields = ['doc.agreed', 'doc.name', 'doc.date', 'doc.signature'] as const;
  const letters = quote.options.map((o) => o.letter).join(' / ');
  figure(pdf, 44, fields.map((f) => say(locale, f)).join(', '), (doc, box) => {
    const width = (box.width - 3 * 16) / 4;
    fields.forEach((field, i) => {
      const x = box.x + i * (width + 16);
      const text = field === 'doc.agreed' ? `${say(locale, field)} ${letters}` : say(locale, field);
      doc.fillColor('#000');
      drawLine(doc, text, { x, y: box.y, width }, STYLES.small);
      doc
        .lineWidth(0.6)
        .moveTo(x, box.y + 40)
        .lineTo(x + width, box.y + 40)
        .stroke('#000');
    });
  });
}
