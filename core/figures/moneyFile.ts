import type { ReadCtx } from '../context.ts';
import type { ChartTable } from '../documents/figuresCsv.ts';
import { currencyDigits } from '../shared/money.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { minorToDecimal } from '../shared/text/format.ts';
import type { LocalDay } from '../shared/units.ts';
import type { MoneyFiguresView, MoneySums, MoneyTable } from '../shared/views/figuresMoney.ts';
import { moneyFigures } from '../views/moneyFigures.ts';
import { csvFile, type Tell, tellIn } from './chartFile.ts';

type Asked = { readonly fromDay: LocalDay; readonly toDay: LocalDay; readonly table: MoneyTable };
type Write = (minor: number | null) => string;

/** One of the tables behind the money figures; amounts with a point in the shop's currency. */
export function moneyFile(ctx: ReadCtx, asked: Asked): () => Promise<DocumentFile> {
  const t = tellIn(ctx);
  const { fromDay, toDay, table } = asked;
  const view = moneyFigures(ctx, { fromDay, toDay });
  const digits = currencyDigits(view.currency);
  const write: Write = (minor) => (minor === null ? '' : minorToDecimal(minor, digits));
  return csvFile(t('figures.csv.money', { table, from: fromDay, to: toDay }), tableOf(view, table, t, write));
}

function tableOf(view: MoneyFiguresView, table: MoneyTable, t: Tell, write: Write): ChartTable {
  const sums = (s: MoneySums): readonly (string | number)[] => [
    ...[s.jobs, write(s.netMinor), write(s.materialMinor), write(s.labourMinor), write(s.marginMinor)],
    ...[s.workedMin, s.unknownMin, s.bayMin],
    ...[write(s.perHourMinor), write(s.perBayHourMinor), view.currency],
  ];
  const heads = [
    ...[t('figures.jobs'), t('figures.net'), t('figures.materials'), t('figures.labour')],
    ...[t('figures.marginWord'), t('figures.csv.workedMin'), t('figures.csv.unknownMin')],
    ...[t('figures.csv.bayMin'), t('figures.perWorked'), t('figures.perBay'), t('figures.csv.currency')],
  ];
  switch (table) {
    case 'kind':
      return {
        columns: [t('figures.byKind'), ...heads],
        rows: view.byKind.map((r) => [t(`jobs.purpose.${r.key}`), ...sums(r)]),
      };
    case 'technician':
      return {
        columns: [t('figures.by.technician'), ...heads],
        rows: view.byTechnician.map((r) => [r.key === '' ? t('figures.unclocked') : r.name, ...sums(r)]),
      };
    case 'time':
      return {
        columns: [t('figures.csv.from'), t('figures.csv.to'), ...heads],
        rows: view.overTime.map((p) => [p.day, p.toDay, ...sums(p)]),
      };
    case 'quotes':
      return quotes(view, t, write);
    case 'owed':
      return owed(view, t, write);
  }
}

function quotes({ quotes: q }: MoneyFiguresView, t: Tell, write: Write): ChartTable {
  // Both days of a wait are in it, as on the screen.
  const lastDay = (to: number | null): string | number => (to === null ? '' : to - 1);
  return {
    columns: [
      ...[t('figures.csv.band'), t('figures.csv.from'), t('figures.csv.to')],
      ...[t('figures.csv.answered'), t('figures.csv.accepted')],
    ],
    rows: [
      ...q.byPrice.map((b) => [t('figures.byPrice'), write(b.from), write(b.to), b.answered, b.accepted]),
      ...q.byWait.map((b) => [t('figures.byWait'), b.from, lastDay(b.to), b.answered, b.accepted]),
    ],
  };
}

const AGES = ['notDue', 'upTo30', 'upTo60', 'upTo90', 'older'] as const;

function owed({ now, warranty, currency }: MoneyFiguresView, t: Tell, write: Write): ChartTable {
  const { jobs, workedMin, materialMinor, labourMinor } = warranty;
  const redone = t('figures.warranty', {
    ...{ jobs, hours: `${workedMin} min`, material: write(materialMinor) },
    labour: labourMinor === 0 ? 'none' : write(labourMinor),
  });
  return {
    columns: [t('figures.owedByAge'), t('figures.csv.amount'), t('figures.csv.currency')],
    rows: [
      ...AGES.map((age) => [t(`figures.owed.${age}`), write(now.ageing[`${age}Minor`]), currency]),
      [t('figures.deposits'), write(now.depositsMinor), currency],
      [t('figures.credits'), write(now.creditsMinor), currency],
      [redone, write(warranty.costMinor), currency],
    ],
  };
}
