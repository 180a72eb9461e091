import { parse } from 'csv-parse/sync';
import type { ReadCtx, WriteCtx } from '../../context.ts';
import { addItemInput } from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import { MATERIAL_UNITS } from '../../shared/materialUnits.ts';
import { ITEM_COLUMNS, type ItemColumn } from '../../shared/stockList.ts';
import type { ItemImportReport } from '../../shared/views/stock.ts';
import { findItemByName, type ItemRecord, keptItems } from '../store/items.ts';
import { addItem, changeItem } from './items.ts';

type Fault = ItemImportReport['faults'][number];
type Row = ReturnType<typeof addItemInput.parse>;
type Read = { readonly rows: readonly Row[]; readonly faults: readonly Fault[] };

const NUMBERS: readonly ItemColumn[] = [
  'packSize',
  'shelfPacks',
  'sealedLifeDays',
  'openedLifeDays',
  'usesPerLife',
  'preference',
];

/** A cell as the schema wants it; empty ones are left to their default. */
function cell(column: ItemColumn, text: string): unknown {
  const value = text.replace(/^'(?=[=+\-@])/, '').trim();
  if (value === '') return undefined;
  if (column === 'reusable') return value === 'yes' ? true : value === 'no' ? false : value;
  if (NUMBERS.includes(column)) return /^\d+$/.test(value) ? Number(value) : value;
  return value;
}

function read(csv: string): Read {
  const parsed = records(csv);
  if (typeof parsed === 'string') return { rows: [], faults: [{ line: 1, field: 'csv', problem: parsed }] };
  const rows: Row[] = [];
  const faults: Fault[] = [];
  const names = new Map<string, number>();
  parsed.forEach((record, i) => {
    const line = i + 2;
    const entries = ITEM_COLUMNS.map((c) => [c, cell(c, record[c] ?? '')] as const);
    const checked = addItemInput.safeParse(Object.fromEntries(entries.filter(([, v]) => v !== undefined)));
    if (!checked.success) {
      const issue = checked.error.issues[0];
      faults.push({ line, field: issue?.path.join('.') ?? '', problem: issue?.message ?? '' });
      return;
    }
    const key = checked.data.name.toLowerCase();
    const twin = names.get(key);
    if (twin) faults.push({ line, field: 'name', problem: `the same name as in line ${twin}` });
    names.set(key, line);
    faults.push(...unitFaults(checked.data, line));
    rows.push(checked.data);
  });
  return { rows, faults };
}

function records(csv: string): readonly Readonly<Record<string, string>>[] | string {
  try {
    return parse(csv, { bom: true, columns: true, skip_empty_lines: true }) as Record<string, string>[];
  } catch (error) {
    return error instanceof Error ? error.message : 'not a list';
  }
}

function unitFaults(row: Row, line: number): readonly Fault[] {
  const needs = row.material ? MATERIAL_UNITS[row.material] : row.unit;
  if (needs !== row.unit) return [{ line, field: 'unit', problem: `this material is counted in ${needs}` }];
  if (row.reusable && row.unit !== 'piece')
    return [{ line, field: 'unit', problem: 'what goes round is counted in pieces' }];
  return [];
}

function differs(known: ItemRecord, row: Row): boolean {
  return ITEM_COLUMNS.some((c) => known[c] !== row[c]);
}

/** What a list would add and change, and where it does not fit. An item is known by its name. */
export function checkItems(ctx: ReadCtx, input: { readonly csv: string }): ItemImportReport {
  const { rows, faults } = read(input.csv);
  const added: string[] = [];
  const changed: string[] = [];
  const more: Fault[] = [];
  const byBarcode = new Map(
    keptItems(ctx.db)
      .filter((i) => i.barcode)
      .map((i) => [i.barcode, i.name] as const),
  );
  rows.forEach((row, i) => {
    const known = findItemByName(ctx.db, row.name);
    const owner = row.barcode === '' ? undefined : byBarcode.get(row.barcode);
    if (owner && owner.toLowerCase() !== row.name.toLowerCase())
      more.push({ line: i + 2, field: 'barcode', problem: `belongs to ${owner}` });
    if (known && (known.unit !== row.unit || known.reusable !== row.reusable))
      more.push({ line: i + 2, field: 'unit', problem: 'can’t change once it is written down' });
    if (!known) added.push(row.name);
    else if (differs(known, row)) changed.push(row.name);
  });
  return {
    rows: rows.length,
    added,
    changed,
    same: rows.length - added.length - changed.length,
    faults: [...faults, ...more].sort((a, b) => a.line - b.line),
  };
}

/**
 * Takes a list over whole.
 * @throws IMPORT_FAULTS when anything in it does not fit; then nothing is taken
 */
export function importItems(ctx: WriteCtx, input: { readonly csv: string }): ItemImportReport {
  const report = checkItems(ctx, input);
  const first = report.faults[0];
  if (first) refuse('IMPORT_FAULTS', { faults: report.faults.length, line: first.line, field: first.field });
  for (const row of read(input.csv).rows) {
    const known = findItemByName(ctx.db, row.name);
    const { unit, reusable, opening, ...changes } = row;
    if (!known) addItem(ctx, row);
    else if (differs(known, row)) changeItem(ctx, { itemId: known.id, revision: known.revision, changes });
  }
  return report;
}
