import { money, range } from '../shared/text/format.ts';
import { sharedLimits } from '../shared/text/limits.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { panelName } from '../shared/text/sayError.ts';
import { exact } from '../shared/text/when.ts';
import type { QuoteOptionView, QuoteView } from '../shared/views/billing.ts';
import { LEVELS } from '../shared/vocabulary.ts';
import { small } from './letter.ts';
import { carHeight, drawCar } from './pdfCar.ts';
import { figure, heading, LEADING, type Pdf, paragraph, STYLES, space } from './pdfKit.ts';
import { drawLine } from './pdfText.ts';

const CAR_WIDTH = 232;
const CAR_GAP = 20;
const NAME_HEIGHT = 16;

/** How far each panel is taken: the flat car of each option side by side, its levels in words for whoever can't see it. */
export function drawLevels(pdf: Pdf, quote: QuoteView, manner: PaperManner): void {
  const { locale } = manner;
  const options = quote.options.filter((o) => o.panels.length > 0);
  if (options.length === 0) return;
  const { body } = quote.vehicle;
  const width = Math.min(CAR_WIDTH, (pdf.width - CAR_GAP * (options.length - 1)) / options.length);
  const named = options.length > 1 ? NAME_HEIGHT : 0;
  const height = carHeight(body, width) + named;
  heading(pdf, say(locale, 'doc.levels'), height + NAME_HEIGHT);
  figure(pdf, height, options.map((o) => levelsInWords(o, quote, manner)).join(' '), (doc, box) => {
    options.forEach((option, i) => {
      const levels = new Map(option.panels.map((p) => [p.panel, p.level]));
      const at = { x: box.x + i * (width + CAR_GAP), width };
      const name = say(locale, 'doc.option', { letter: option.letter });
      doc.fillColor('#000');
      if (named > 0) drawLine(doc, name, { ...at, y: box.y }, STYLES.small, 'centre');
      drawCar(doc, body, levels, { ...at, y: box.y + named });
    });
  });
  small(pdf, say(locale, 'doc.carKey'));
  space(pdf, 10);
}

function levelsInWords(option: QuoteOptionView, quote: QuoteView, { locale }: PaperManner): string {
  const lines = [...LEVELS].reverse().flatMap((level) => {
    const named = option.panels
      .filter((p) => p.level === level)
      .map((p) => panelName(locale, p.panel, quote.vehicle.body));
    const word = say(locale, `word.level.${level}`);
    return named.length > 0 ? [say(locale, 'doc.levelLine', { level: word, panels: named.join(', ') })] : [];
  });
  return `${say(locale, 'doc.option', { letter: option.letter })}. ${lines.join('. ')}.`;
}

/** What polishing will not fix, each sentence once; what belongs to one option only says so. */
export function drawLimits(pdf: Pdf, quote: QuoteView, manner: PaperManner): void {
  const { locale } = manner;
  heading(pdf, say(locale, 'doc.limits'), 2 * STYLES.body.size * LEADING);
  const limits = sharedLimits(manner, quote.options, quote.vehicle.body);
  if (limits.length === 0) paragraph(pdf, say(locale, 'doc.noLimits'));
  limits.forEach((limit, i) => {
    const { letters } = limit;
    const of = { letters: letters.join(', '), n: letters.length };
    const where = letters.length < quote.options.length ? `${say(locale, 'doc.limitsAlso', of)} ` : '';
    paragraph(pdf, `${i + 1}. ${where}${limit.text}`, { tag: 'LI' });
  });
  space(pdf, 10);
}

/** What the price means, and what to know about machine polishing. */
export function drawTerms(pdf: Pdf, quote: QuoteView, manner: PaperManner): void {
  const { locale } = manner;
  const first = quote.options[0];
  const prices = (first?.hourPricesMinor ?? []).map((minor) => money(manner, minor));
  const rate = range(prices[0] ?? '', prices.at(-1) ?? '');
  // A price for paint that nobody has seen cannot be a fixed one, whatever the shop's rule is.
  const unseen = quote.options.some((o) => o.limits.some((l) => l.key === 'unseen'));
  if (unseen) small(pdf, say(locale, 'doc.unseen'));
  else small(pdf, say(locale, `doc.basis.${quote.basis}`, quote.basis === 'byTime' ? { rate } : {}));
  small(pdf, say(locale, first?.bill.taxIncluded ? 'doc.withTax' : 'doc.withoutTax'));
  small(pdf, say(locale, 'doc.caution.clearCoat'));
  small(pdf, say(locale, 'doc.caution.respray'));
  space(pdf, 18);
}

/** Who agreed, or room to agree. */
export function drawAgreement(pdf: Pdf, quote: QuoteView, manner: PaperManner): void {
  const { locale } = manner;
  if (quote.acceptance) {
    const { letter, name, way, atMs } = quote.acceptance;
    const title = quote.options.find((o) => o.letter === letter)?.title ?? '';
    const values = { letter, title, name, way: say(locale, `doc.way.${way}`), when: exact(manner, atMs) };
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
