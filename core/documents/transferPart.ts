import { printedIban } from '../shared/iban.ts';
import { money } from '../shared/text/format.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { type Modules, QUIET_SQUARE } from './barcode.ts';
import { figure, heading, need, type Pdf, paragraph } from './pdfKit.ts';
import { transferCode } from './transferCode.ts';

/** Edge of the code on paper: three quarters of a millimetre a module at its usual size. */
const EDGE = 88;
const GAP = 14;

/** Where to transfer what is still to pay, with a code for a banking program where the currency is the euro. */
export function transferPart(pdf: Pdf, invoice: InvoiceView, manner: PaperManner): void {
  const { bank, currency } = invoice.seller;
  if (!bank || invoice.number === null || invoice.kind === 'credit' || invoice.owedMinor <= 0) return;
  const { locale } = manner;
  const text = passedOn(say(locale, `doc.${invoice.kind}`, { number: invoice.number }));
  const code = transferCode({ bank, amountMinor: invoice.owedMinor, currency, text });
  need(pdf, EDGE + GAP * 2);
  heading(pdf, say(locale, 'doc.transfer', { amount: money(manner, invoice.owedMinor) }), EDGE);
  const top = pdf.y + 4;
  const left = pdf.left + (code ? EDGE + GAP : 0);
  pdf.y = top;
  if (code) figure(pdf, EDGE, say(locale, 'doc.transferCode'), (doc, box) => drawSquare(doc, code, box));
  pdf.y = top;
  const lines = [
    say(locale, 'doc.transferTo', { name: bank.holder }),
    say(locale, 'doc.transferIban', { iban: printedIban(bank.iban) }),
    bank.bic && say(locale, 'doc.transferBic', { bic: bank.bic }),
    say(locale, 'doc.transferText', { text }),
    code && say(locale, 'doc.transferScan'),
  ];
  for (const line of lines)
    if (line) paragraph(pdf, line, { box: { x: left, width: pdf.width - (left - pdf.left) } });
  pdf.y = Math.max(pdf.y, top + (code ? EDGE : 0));
}

/**
 * A text in signs that banks pass on: those of the basic Latin set, which has neither a degree sign nor a curled
 * apostrophe. What a customer reads is what a banking program shows.
 * @source EPC217-08, from memory
 */
function passedOn(text: string): string {
  return text.replaceAll('°', 'o').replaceAll('’', "'").replaceAll(/\s/g, ' ');
}

/** Dark modules, those side by side in one piece, so that no seam shows between them. */
function drawSquare(
  doc: PDFKit.PDFDocument,
  code: Modules,
  at: { readonly x: number; readonly y: number },
): void {
  const step = EDGE / (code.size + 2 * QUIET_SQUARE);
  for (let row = 0; row < code.size; row += 1)
    for (let column = 0; column < code.size; column += 1) {
      let run = 0;
      while (column + run < code.size && code.isDark(row, column + run)) run += 1;
      if (run === 0) continue;
      doc.rect(at.x + (column + QUIET_SQUARE) * step, at.y + (row + QUIET_SQUARE) * step, run * step, step);
      column += run;
    }
  doc.fill('#000');
}
