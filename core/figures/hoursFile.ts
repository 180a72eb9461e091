import type { ReadCtx } from '../context.ts';
import type { ChartTable } from '../documents/figuresCsv.ts';
import type { DocumentFile } from '../shared/reply.ts';
import type { LocalDay } from '../shared/units.ts';
import type { PeriodKind, UtilizationView } from '../shared/views/figures.ts';
import { utilizationView } from '../views/utilization.ts';
import { csvFile, type Tell, tellIn } from './chartFile.ts';

const PARTS = ['attended', 'cure', 'waiting', 'blocked', 'idle', 'closed'] as const;
type Asked = { readonly fromDay: LocalDay; readonly toDay: LocalDay; readonly by: PeriodKind };

/** The table behind the hours: a line for each bay or technician and period, whole minutes that add up. */
export function hoursFile(ctx: ReadCtx, asked: Asked): () => Promise<DocumentFile> {
  const t = tellIn(ctx);
  const view = utilizationView(ctx, asked);
  return csvFile(t('figures.csv.hours', { from: view.fromDay, to: view.toDay }), tableOf(view, t));
}

function tableOf(view: UtilizationView, t: Tell): ChartTable {
  const minutes = (part: string): string => t('figures.csv.minutes', { part });
  const lines = (kind: 'bay' | 'person', all: UtilizationView['bays'] | UtilizationView['people']) =>
    all.flatMap((row) =>
      row.cells.map((cell) => [
        ...[t(`figures.csv.${kind}`), row.name, cell.day, cell.toDay, cell.availableMin],
        ...PARTS.map((part) => cell[`${part}Min`]),
      ]),
    );
  return {
    columns: [
      ...[t('figures.csv.kind'), t('figures.who'), t('figures.csv.from'), t('figures.csv.to')],
      minutes(t('figures.available')),
      ...PARTS.map((p) => minutes(t(`figures.part.${p}`))),
    ],
    rows: [...lines('bay', view.bays), ...lines('person', view.people)],
  };
}
