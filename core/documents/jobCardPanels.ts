import { film } from '../shared/text/format.ts';
import { foundText } from '../shared/text/found.ts';
import { amountText, type Manner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { panelName } from '../shared/text/sayError.ts';
import type { CardPanel, CardStage, CardView } from '../shared/views/card.ts';
import { isMachineStage } from '../shared/vocabulary.ts';
import type { Pdf } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';

/** Film and limits of each panel, with a box to tick for every machine stage that is on it. */
export function panelTable(pdf: Pdf, card: CardView, manner: Manner): void {
  const { locale } = manner;
  const machined = card.stages.filter((s) => isMachineStage(s.kind));
  const columns = [
    { title: say(locale, 'card.panel'), share: 4 },
    { title: say(locale, 'card.lowest'), share: 3.4 },
    { title: say(locale, 'card.mayTake'), share: 3.4 },
    { title: say(locale, 'card.found'), share: 7 },
    ...machined.map((s) => ({ title: say(locale, `word.stage.${s.kind}`), share: 1.8 })),
  ];
  table(
    pdf,
    columns,
    card.panels.map((p) => panelRow(p, card, machined, manner)),
  );
}

function panelRow(p: CardPanel, card: CardView, machined: readonly CardStage[], manner: Manner): TableRow {
  const { locale } = manner;
  return {
    cells: [
      panelName(locale, p.panel, card.job.vehicle.body),
      p.lowestTenthUm === null ? say(locale, 'card.notRead') : amountText(film(manner, p.lowestTenthUm)),
      mayText(p, manner),
      p.findings.map((f) => foundText(manner, f)).join('; '),
      ...machined.map((s) => tickBox(p, s, manner)),
    ],
  };
}

/** `4.3 µm`, or why there is no such figure. */
function mayText(p: CardPanel, manner: Manner): string {
  const why = say(manner.locale, `word.may.${p.why}`);
  if (p.mayTakeTenthUm === null || p.why === 'thin') return why;
  const amount = amountText(film(manner, p.mayTakeTenthUm));
  return p.why === 'planned' ? `${amount}, ${why}` : amount;
}

/** Nothing where the stage is not on the panel; an empty box to be ticked, a crossed one where it is done. */
function tickBox(p: CardPanel, s: CardStage, { locale }: Manner): string {
  if (!s.panels.includes(p.panel)) return '';
  return say(locale, s.state === 'done' || s.panelsDone.includes(p.panel) ? 'card.ticked' : 'card.tick');
}
