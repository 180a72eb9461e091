import type { ReadCtx, WriteCtx } from '../../context.ts';
import { refuse } from '../../shared/errors.ts';
import { type DecimalSign, plainFigure } from '../../shared/listFigures.ts';
import {
  baseAmount,
  COUNT_COLUMNS,
  LIST_UNIT_WORDS,
  LIST_UNITS,
  unitOfWord,
} from '../../shared/stockList.ts';
import type { CountImportReport } from '../../shared/views/stockCounts.ts';
import type { ListFault } from '../../shared/views/stockItem.ts';
import { countDifference } from '../rules/ledger.ts';
import { findItemByName, type ItemRecord } from '../store/items.ts';
import { bookAt, countedSince, latestLine } from '../store/ledger.ts';
import { count } from './counts.ts';
import { type Cells, decimalSignIn, plainCell, recordsOf } from './listFile.ts';

type CountRow = { readonly item: ItemRecord; readonly asOfMovementId: number; readonly counted: number };
type CountList = {
  readonly lines: number;
  readonly rows: readonly CountRow[];
  readonly empty: number;
  readonly faults: readonly ListFault[];
};

/** A filled-in count list, held against the items and their ledgers; lines without a figure are left out. */
function readCounts(ctx: ReadCtx, csv: string): CountList {
  const parsed = recordsOf(csv);
  if ('problem' in parsed) return { lines: 0, rows: [], empty: 0, faults: [parsed] };
  const rows: CountRow[] = [];
  const faults: ListFault[] = [];
  const known: Known = { seen: new Map(), sign: decimalSignIn(csv, parsed, 'counted') };
  let empty = 0;
  for (const [line, record] of parsed) {
    const read = readRow(ctx, record, line, known);
    if (read === null) empty += 1;
    else if ('problem' in read) faults.push(read);
    else rows.push(read);
  }
  return { lines: parsed.length, rows, empty, faults };
}

/** What the other lines of the list say: the items they name, and the decimal sign. */
type Known = { readonly seen: Map<string, number>; readonly sign: DecimalSign | null };

function readRow(
  ctx: ReadCtx,
  record: Cells,
  line: number,
  { seen, sign }: Known,
): CountRow | ListFault | null {
  const unknown = Object.keys(record).find((c) => !(COUNT_COLUMNS as readonly string[]).includes(c));
  if (unknown !== undefined) return { line: 1, field: unknown, problem: 'unknownField' };
  const cell = (column: (typeof COUNT_COLUMNS)[number]): string => plainCell(record[column] ?? '');
  if (cell('counted') === '') return null;
  const item = findItemByName(ctx.db, cell('item'));
  if (!item) return { line, field: 'item', problem: 'noSuchItem' };
  const twin = seen.get(item.id);
  if (twin !== undefined) return { line, field: 'item', problem: 'sameNameAbove', limit: twin };
  seen.set(item.id, line);
  const unit = unitOfWord(cell('unit'));
  if (unit === null) return { line, field: 'unit', problem: 'notOneOf', limit: LIST_UNIT_WORDS };
  if (unit !== item.unit)
    return { line, field: 'unit', problem: 'otherUnit', limit: LIST_UNITS[item.unit].word };
  const figure = plainFigure(cell('counted'), sign);
  if ('twoWays' in figure) return { line, field: 'counted', problem: 'twoWays', limit: figure.twoWays };
  const counted = baseAmount(figure.plain, unit);
  if (counted === null || counted > 1_000_000_000) return { line, field: 'counted', problem: 'notAmount' };
  return besideLedger(ctx, item, cell('asOf'), { line, counted });
}

/** The line the count stands beside must be there, and no later count may have answered it. */
function besideLedger(
  ctx: ReadCtx,
  item: ItemRecord,
  asOf: string,
  row: { readonly line: number; readonly counted: number },
): CountRow | ListFault {
  const { line, counted } = row;
  const asOfMovementId = /^\d{1,15}$/.test(asOf) ? Number(asOf) : null;
  if (asOfMovementId === null) return { line, field: 'asOf', problem: 'notNumber' };
  if (asOfMovementId > latestLine(ctx.db, item.id)) return { line, field: 'asOf', problem: 'lineAhead' };
  if (countedSince(ctx.db, item.id, asOfMovementId)) return { line, field: 'item', problem: 'countedSince' };
  return { item, asOfMovementId, counted };
}

function reportOn(ctx: ReadCtx, list: CountList): CountImportReport {
  const counted = list.rows.map(({ item, asOfMovementId, counted }) => ({
    itemName: item.name,
    unit: item.unit,
    counted,
    difference: countDifference(counted, bookAt(ctx.db, item.id, asOfMovementId)),
  }));
  return { rows: list.lines, empty: list.empty, counted, faults: list.faults };
}

/** What a filled-in count list would change, and where it does not fit. */
export function checkCounts(ctx: ReadCtx, input: { readonly csv: string }): CountImportReport {
  return reportOn(ctx, readCounts(ctx, input.csv));
}

/**
 * Takes a count list over whole; draws booked since it was made stay as they are.
 * @throws IMPORT_FAULTS when anything in it does not fit; then nothing is taken
 */
export function importCounts(ctx: WriteCtx, input: { readonly csv: string }): CountImportReport {
  const list = readCounts(ctx, input.csv);
  const report = reportOn(ctx, list);
  const first = report.faults[0];
  if (first) refuse('IMPORT_FAULTS', { faults: report.faults.length, line: first.line, field: first.field });
  // what it would change was shown before: whoever takes it over has said yes to it
  for (const { item, asOfMovementId, counted } of list.rows)
    count(ctx, { itemId: item.id, asOfMovementId, counted, acceptMore: true });
  return report;
}
