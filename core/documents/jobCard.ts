import { amountOf, count, hours, hoursRange } from '../shared/text/format.ts';
import { amountText, type Manner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { panelNames } from '../shared/text/sayError.ts';
import { exact, when } from '../shared/text/when.ts';
import type { CardStage, CardView } from '../shared/views/card.ts';
import { panelTable } from './jobCardPanels.ts';
import { finishPdf, heading, LEADING, openPdf, type Pdf, paragraph, STYLES, space } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';

/** The job card on paper: what to do in which order, with what, how far on each panel, and what to take care of. */
export async function jobCardPdf(card: CardView, manner: Manner): Promise<Uint8Array> {
  const { job, shop } = card;
  const { locale } = manner;
  const pdf = openPdf({
    title: say(locale, 'card.title', { number: job.number }),
    author: shop.name,
    language: locale,
    paper: shop.paper,
    createdMs: card.nowMs,
    foot: say(locale, 'card.foot', { number: job.number, customer: job.customer.name }),
    pageWord: (page, of) => say(locale, 'card.page', { page, of }),
  });
  head(pdf, card, manner);
  title(pdf, say(locale, 'card.stages'));
  stageTable(pdf, card, manner);
  title(pdf, say(locale, 'card.cautions'));
  for (const caution of new Set(card.stages.flatMap((s) => s.how.cautions)))
    paragraph(pdf, `– ${say(locale, `card.caution.${caution}`)}`);
  if (card.panels.length > 0) {
    title(pdf, say(locale, 'card.limits'));
    panelTable(pdf, card, manner);
  }
  overrides(pdf, card, manner);
  return finishPdf(pdf);
}

/** The head of a part with its first lines; of a table, the head of its columns and a row of two lines. */
const BELOW = 4 * STYLES.body.size * LEADING;

function title(pdf: Pdf, text: string): void {
  space(pdf, 12);
  heading(pdf, text, BELOW);
  space(pdf, 3);
}

function head(pdf: Pdf, { job, nowMs }: CardView, manner: Manner): void {
  const { locale } = manner;
  const number = say(locale, 'card.title', { number: job.number });
  paragraph(pdf, `${number} · ${job.customer.name}`, { style: 'title', tag: 'H1' });
  const { vehicle } = job;
  const plate = vehicle.plate ? say(locale, 'card.plate', { plate: vehicle.plate }) : '';
  const facts = [vehicle.makeModel, vehicle.colour, vehicle.year ?? '', plate].filter((text) => text !== '');
  paragraph(pdf, facts.join(', '));
  const at = job.promise.pickUpMin;
  const out =
    at === null
      ? say(locale, 'card.noPromise')
      : `${say(locale, 'card.out', { when: when(manner, at * 60_000, nowMs) })} (${exact(manner, at * 60_000)})`;
  paragraph(pdf, out, { style: 'strong' });
  if (job.wish) paragraph(pdf, `${say(locale, 'card.wish')}: “${job.wish}”`);
}

function stageTable(pdf: Pdf, card: CardView, manner: Manner): void {
  const { locale } = manner;
  const columns = [
    { title: say(locale, 'card.stage'), share: 3.7 },
    { title: say(locale, 'card.machine'), share: 5 },
    { title: say(locale, 'card.hours'), share: 2.5 },
    { title: say(locale, 'card.panels'), share: 2.7 },
    { title: say(locale, 'card.materials'), share: 5.3 },
    { title: say(locale, 'card.done'), share: 2.8 },
  ];
  table(
    pdf,
    columns,
    card.stages.map((s) => stageRow(s, card, manner)),
  );
}

/** More panels than these are counted here and named in the table of panels below. */
const FEW = 2;

function stageRow(s: CardStage, card: CardView, manner: Manner): TableRow {
  const { locale } = manner;
  const body = card.job.vehicle.body;
  const time =
    s.crew === 0
      ? say(locale, 'card.unattended', { hours: count(manner, s.dwellMin / 60, 1) })
      : `${amountText(hours(manner, s.p50Min))}\n${hoursRange(manner, s.p20Min, s.p80Min)}${pairText(s, manner)}`;
  const panels =
    s.panels.length > FEW
      ? say(locale, 'card.panelCount', { n: s.panels.length })
      : panelNames(locale, s.panels, body);
  const materials = s.materials.map(
    (m) => `${say(locale, `word.material.${m.material}`)} ${amountText(amountOf(manner, m.unit, m.planned))}`,
  );
  const by = [...new Set(s.work.map((w) => w.person.name))].join(', ');
  const done = s.state === 'done' ? by || say(locale, 'word.stageState.done') : '';
  return {
    cells: [
      say(locale, `word.stage.${s.kind}`),
      howText(s, manner),
      time,
      panels,
      materials.join(', '),
      done,
    ],
  };
}

function howText(s: CardStage, manner: Manner): string {
  const { locale } = manner;
  const { machine, pad, liquid, spread, rpm, padMm, section } = s.how;
  const parts = [
    s.crew === 0 ? '' : say(locale, `card.machine.${machine}`),
    pad === null ? '' : say(locale, `word.material.${pad}`),
    padMm === null ? '' : say(locale, 'card.padMm', { mm: padMm }),
    liquid === null ? '' : say(locale, `word.material.${liquid}`),
    say(locale, `card.spread.${spread}`),
    rpm === null ? '' : say(locale, 'card.rpm', { machine, rpm: count(manner, rpm) }),
    section === null ? '' : sectionText(section, manner),
  ];
  return parts.filter((text) => text !== '').join(', ');
}

function sectionText(section: NonNullable<CardStage['how']['section']>, manner: Manner): string {
  const { alongMm, acrossMm, armMmS } = section;
  return say(manner.locale, 'card.section', { along: alongMm, across: acrossMm, speed: armMmS });
}

function overrides(pdf: Pdf, { job }: CardView, manner: Manner): void {
  if (job.overrides.length === 0) return;
  title(pdf, say(manner.locale, 'card.overrides'));
  for (const o of job.overrides) {
    const panels = panelNames(manner.locale, o.panels, job.vehicle.body);
    paragraph(pdf, say(manner.locale, 'card.override', { rule: o.rule, panels, by: o.by, reason: o.reason }));
  }
}

/** Hours are of all people together: of two each is half as long at the car. */
function pairText(s: CardStage, manner: Manner): string {
  if (s.crew < 2) return '';
  const each = amountText(hours(manner, s.p50Min / 2));
  return `\n${say(manner.locale, 'card.pair', { hours: each })}`;
}
