import { money } from '../shared/text/format.ts';
import { mannerFor } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { sayMonday } from '../shared/text/sayMonday.ts';
import { date } from '../shared/text/when.ts';
import type { SellerView } from '../shared/views/billing.ts';
import type { MondayThing, MondayView } from '../shared/views/monday.ts';
import { openLetter, small } from './letter.ts';
import { finishPdf, heading, type Pdf, paragraph, space } from './pdfKit.ts';

const INDENT = 18;

/** The week on one page: five things, each with its number, its reason and its cases. */
export async function mondayPdf(view: MondayView, shop: SellerView, createdMs: number): Promise<Uint8Array> {
  const manner = mannerFor(shop);
  const { locale } = manner;
  const under = [date(manner, view.today)];
  const pdf = openLetter(shop, { title: say(locale, 'monday.title'), under, createdMs }, manner);
  if (view.things.length === 0) paragraph(pdf, say(locale, 'monday.none'), { style: 'lead' });
  for (const [i, thing] of view.things.entries()) drawThing(pdf, shop, thing, i + 1);
  if (view.others.length > 0) {
    const others = view.others.map(
      (o) => `${say(locale, `monday.kind.${o.kind}`)} ${money(manner, o.savedMinor)}`,
    );
    small(pdf, `${say(locale, 'monday.others')}: ${others.join(' · ')}`);
  }
  if (view.clear.length > 0) {
    const clear = view.clear.map((kind) => say(locale, `monday.kind.${kind}`));
    small(pdf, `${say(locale, 'monday.clear')}: ${clear.join(' · ')}`);
  }
  space(pdf, 6);
  small(pdf, say(locale, 'monday.caution'));
  return finishPdf(pdf);
}

function drawThing(pdf: Pdf, shop: SellerView, thing: MondayThing, place: number): void {
  const manner = mannerFor(shop);
  const { locale } = manner;
  const saved = money(manner, thing.savedMinor);
  const kept = thing.promises > 0 ? ` · ${say(locale, 'monday.kept', { promises: thing.promises })}` : '';
  heading(pdf, `${place}  ${sayMonday(manner, thing.said)}: ${saved}${kept}`, 40);
  const box = { x: pdf.left + INDENT, width: pdf.width - INDENT };
  paragraph(pdf, sayMonday(manner, thing.why), { style: 'small', box });
  for (const one of thing.cases) paragraph(pdf, `${sayMonday(manner, one.said)}`, { box, tag: 'LI' });
  if (thing.moreCases > 0)
    paragraph(pdf, say(locale, 'monday.more', { count: thing.moreCases }), { style: 'small', box });
  space(pdf, 10);
}
