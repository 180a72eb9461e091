import { addItemInput } from '../../shared/catalogue/stockInputs.ts';
import { inputFault } from '../../shared/inputFault.ts';
import { type DecimalSign, plainFigure } from '../../shared/listFigures.ts';
import { MATERIAL_UNITS } from '../../shared/materialUnits.ts';
import {
  baseAmount,
  ITEM_COLUMNS,
  type ItemColumn,
  LIST_UNIT_WORDS,
  LIST_UNITS,
  unitOfWord,
} from '../../shared/stockList.ts';
import type { ListFault } from '../../shared/views/stockItem.ts';
import { type Cells, decimalSignIn, plainCell, recordsOf } from './listFile.ts';

/** One item of a list, the line of the file it stands in, and the columns that the list has. */
export type ListRow = {
  readonly line: number;
  readonly item: ReturnType<typeof addItemInput.parse>;
  readonly given: readonly ItemColumn[];
};
export type ItemList = {
  /** Lines of items in the file, those with faults included. */
  readonly lines: number;
  readonly rows: readonly ListRow[];
  readonly faults: readonly ListFault[];
};

const NUMBERS: readonly ItemColumn[] = [
  'shelfPacks',
  'sealedLifeDays',
  'openedLifeDays',
  'usesPerLife',
  'preference',
];

/** A cell as the schema wants it; empty ones are left to their default. */
function cell(column: ItemColumn, text: string): unknown {
  const value = plainCell(text);
  if (value === '') return undefined;
  if (column === 'reusable') return value === 'yes' ? true : value === 'no' ? false : value;
  if (NUMBERS.includes(column)) return /^\d+$/.test(value) ? Number(value) : value;
  return value;
}

/** A list of items as it was written (RFC 4180, first line the columns), and where it does not fit by itself. */
export function readItemList(csv: string): ItemList {
  const parsed = recordsOf(csv);
  if ('problem' in parsed) return { lines: 0, rows: [], faults: [parsed] };
  const rows: ListRow[] = [];
  const faults: ListFault[] = [];
  const seen = new Map<string, number>();
  const sign = decimalSignIn(csv, parsed, 'packSize');
  for (const [line, record] of parsed) {
    const read = readRow(record, line, sign);
    if ('problem' in read) {
      faults.push(read);
      continue;
    }
    const key = read.item.name.toLowerCase();
    const twin = seen.get(key);
    if (twin) faults.push({ line, field: 'name', problem: 'sameNameAbove', limit: twin });
    seen.set(key, line);
    faults.push(...unitFaults(read));
    rows.push(read);
  }
  return { lines: parsed.length, rows, faults };
}

function readRow(record: Cells, line: number, sign: DecimalSign | null): ListRow | ListFault {
  const unknown = Object.keys(record).find((c) => !(ITEM_COLUMNS as readonly string[]).includes(c));
  if (unknown !== undefined) return { line: 1, field: unknown, problem: 'unknownField' };
  const cells = ITEM_COLUMNS.map((c) => [c, cell(c, record[c] ?? '')] as const);
  const said = Object.fromEntries(cells.filter(([, value]) => value !== undefined));
  const unit = unitOfWord(String(said['unit'] ?? ''));
  if (unit === null) return { line, field: 'unit', problem: 'notOneOf', limit: LIST_UNIT_WORDS };
  const figure = plainFigure(String(said['packSize'] ?? ''), sign);
  if ('twoWays' in figure) return { line, field: 'packSize', problem: 'twoWays', limit: figure.twoWays };
  const packSize = baseAmount(figure.plain, unit);
  const input = { ...said, unit, packSize: packSize ?? said['packSize'] };
  const checked = addItemInput.safeParse(input);
  return checked.success
    ? { line, item: checked.data, given: ITEM_COLUMNS.filter((c) => c in record) }
    : { line, ...inputFault(checked.error.issues, input) };
}

function unitFaults({ line, item }: ListRow): readonly ListFault[] {
  const needs = item.material ? MATERIAL_UNITS[item.material] : item.unit;
  if (needs !== item.unit)
    return [{ line, field: 'unit', problem: 'materialUnit', limit: LIST_UNITS[needs].word }];
  if (item.reusable && item.unit !== 'piece') return [{ line, field: 'unit', problem: 'roundInPieces' }];
  return [];
}
