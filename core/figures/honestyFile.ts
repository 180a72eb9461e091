import type { ReadCtx } from '../context.ts';
import type { ChartTable } from '../documents/figuresCsv.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { sayStory } from '../shared/text/sayStory.ts';
import type { LocalDay } from '../shared/units.ts';
import type { HonestyRow, HonestyTable, HonestyView } from '../shared/views/figures.ts';
import { honestyView } from '../views/figures.ts';
import { csvFile, type Tell, tellIn } from './chartFile.ts';

type Asked = { readonly fromDay: LocalDay; readonly toDay: LocalDay; readonly table: HonestyTable };
type Sums = Omit<HonestyRow, 'key' | 'label'>;

/** One of the tables behind the honest hours. */
export function honestyFile(ctx: ReadCtx, asked: Asked): () => Promise<DocumentFile> {
  const t = tellIn(ctx);
  const { fromDay, toDay, table } = asked;
  const view = honestyView(ctx, { fromDay, toDay });
  return csvFile(t('figures.csv.honesty', { table, from: fromDay, to: toDay }), tableOf(view, table, t));
}

function tableOf(view: HonestyView, table: HonestyTable, t: Tell): ChartTable {
  if (table === 'outliers') return outliers(view, t);
  if (table === 'time')
    return {
      columns: [t('figures.csv.from'), t('figures.csv.to'), ...sumHeads(t)],
      rows: view.overTime.map((p) => [p.day, p.toDay, ...sumCells(p)]),
    };
  const groups = {
    stage: view.byStage,
    technician: view.byTechnician,
    paint: view.byHardness,
    condition: view.byCondition,
  }[table];
  return {
    columns: [t('figures.group'), ...sumHeads(t)],
    rows: [...groups, view.all].map((row) => [nameOf(row, t), ...sumCells(row)]),
  };
}

function sumHeads(t: Tell): readonly string[] {
  return [
    ...[t('figures.stages'), t('figures.csv.saidMin'), t('figures.csv.tookMin')],
    ...[t('figures.csv.overPercent'), t('figures.csv.withinP80'), t('figures.csv.loss')],
  ];
}

function sumCells(s: Sums): readonly number[] {
  const over = Math.round(s.driftPpm / 1000 - 1000) / 10;
  return [s.stages, s.estimatedMin, s.actualMin, over, s.within, Math.round(s.lossMin * 100) / 100];
}

function nameOf({ label }: HonestyRow, t: Tell): string {
  switch (label.kind) {
    case 'all':
      return t('figures.all');
    case 'stage':
      return t(`word.stage.${label.stage}`);
    case 'hardness':
      return t(`word.hardness.${label.hardness}`);
    case 'condition':
      return t(`figures.condition.${label.condition}`);
    case 'text':
      return label.text;
  }
}

function outliers(view: HonestyView, t: Tell): ChartTable {
  return {
    columns: [
      ...[t('figures.job'), t('figures.by.stage'), t('figures.by.technician'), t('figures.csv.saidMin')],
      ...[t('figures.csv.longerMin'), t('figures.csv.tookMin'), t('figures.csv.story')],
    ],
    rows: view.outliers.map((o) => [
      ...[o.jobNumber, t(`word.stage.${o.stage}`), o.person, o.p50Min, o.p80Min, o.actualMin],
      o.story.map((story) => sayStory(t, story)).join(' · '),
    ]),
  };
}
