import { refuse } from '../../shared/errors.ts';
import { TENTH_UM_PER_MIL } from '../../shared/units.ts';
import type { BodyStyle, PanelId } from '../../shared/vocabulary.ts';

export type FilmUnit = 'um' | 'mil';

/** No paint reads outside this, bare primer and filler included. 0.1 µm. Common practice, no source. */
const LEAST = 50;
const MOST = 50_000;
/** Below 15 typed as µm it is likely mil; above 40 typed as mil it is likely µm. Common practice, no source. */
const MIL_LIKE_UM = 15;
const UM_LIKE_MIL = 40;

/**
 * A typed reading as 0.1 µm, half away from zero. `sure` = somebody has confirmed the unit; `row` = where it stands in
 * a gauge's text, 0 = typed.
 * @example toTenthUm(105.8, 'um', false) //=> 1058
 * @throws FILM_UNIT_DOUBTFUL when the value fits the other unit far better and nobody has confirmed it
 * @throws FILM_ABSURD when no paint reads so
 * @source 1 mil = 25.4 µm exactly
 */
export function toTenthUm(value: number, unit: FilmUnit, sure: boolean, row = 0): number {
  if (!(value > 0) || !Number.isFinite(value)) return refuse('FILM_ABSURD', { value, unit, row });
  const other: FilmUnit = unit === 'um' ? 'mil' : 'um';
  const doubtful = unit === 'um' ? value < MIL_LIKE_UM : value > UM_LIKE_MIL;
  if (doubtful && !sure) return refuse('FILM_UNIT_DOUBTFUL', { value, unit, other, row });
  const tenth = Math.round(unit === 'um' ? value * 10 : value * TENTH_UM_PER_MIL);
  if (tenth < LEAST || tenth > MOST) return refuse('FILM_ABSURD', { value, unit, row });
  return tenth;
}

/** One row of a gauge's text: its number there, from 1, and its cells without blanks around them. */
export type TextRow = { readonly row: number; readonly cells: readonly string[] };
export type GaugeRow = {
  readonly row: number;
  readonly panel: PanelId;
  readonly point: string | null;
  readonly tenthUm: number;
};

export type GaugeRules = {
  /** What figures are in where no unit stands beside them. */
  readonly unit: FilmUnit;
  /** Somebody has confirmed that unit. */
  readonly sure: boolean;
  readonly body: BodyStyle;
  /** How the panels of this body may be called, besides their ids. */
  readonly nameOf: ReadonlyMap<string, PanelId>;
};

const COLUMNS = ['panel', 'point', 'reading', 'unit'] as const;
type Column = (typeof COLUMNS)[number];
type Cells = Readonly<Record<Column, string>>;

/**
 * Readings of a gauge, one a row. With a heading: panel and reading are needed, point and unit may be there, in any
 * order. Without: panel, point, reading, unit, where point and unit may be left out. Panels by id or by name, the words
 * of a name in any order. A comma in a figure is a decimal point.
 * Nothing is taken in unless every row can be read: what can't be is named with its row and column.
 * @throws READING_COLUMNS, READING_ENCODING, READING_CELLS, READING_PANEL, READING_UNREADABLE, FILM_UNIT_DOUBTFUL,
 * FILM_ABSURD, all with the row; NO_READING
 */
export function gaugeRows(table: readonly TextRow[], rules: GaugeRules): GaugeRow[] {
  const header = headingOf(table[0]?.cells ?? []);
  for (const row of table) refuseOtherEncoding(row, header);
  const known = new Map([...rules.nameOf].map(([name, panel]) => [wordsOf(name), panel]));
  for (const panel of rules.nameOf.values()) known.set(panel, panel);
  const rows = header ? table.slice(1) : table;
  if (rows.length === 0) return refuse('NO_READING', {});
  return rows.map((row) => rowOf(row.row, cellsOf(row, header), rules, known));
}

/** `Door, left front` and `left front door` are one panel. */
function wordsOf(name: string): string {
  return (name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []).sort().join(' ');
}

/** Names of the columns; null without a heading. */
function headingOf(first: readonly string[]): readonly string[] | null {
  const cells = first.map((c) => c.toLowerCase());
  const named = (['panel', 'reading'] as const).filter((name) => cells.includes(name));
  if (named.length === 0) return null;
  if (named.length === 2) return cells;
  return refuse('READING_COLUMNS', { missing: named[0] === 'panel' ? 'reading' : 'panel' });
}

/** Bytes that are no UTF-8 came in as U+FFFD, those of UTF-16 with zeros between them. */
function refuseOtherEncoding({ row, cells }: TextRow, header: readonly string[] | null): void {
  const at = cells.findIndex((cell) => /[\uFFFD\0]/.test(cell));
  if (at < 0) return;
  const column = header?.[at] ?? String(at + 1);
  refuse('READING_ENCODING', { row, column, text: (cells[at] ?? '').replaceAll('\0', '') });
}

function cellsOf({ row, cells }: TextRow, header: readonly string[] | null): Cells {
  const columns = header?.length ?? COLUMNS.length;
  const filled = cells.slice(0, cells.findLastIndex((cell) => cell !== '') + 1);
  if (filled.length > columns) refuse('READING_CELLS', { row, cells: filled.length, columns });
  const at = (name: Column): string => cells[header?.indexOf(name) ?? -1] ?? '';
  if (header) return { panel: at('panel'), point: at('point'), reading: at('reading'), unit: at('unit') };
  const unit = unitOf(filled.at(-1) ?? '') ? (filled.pop() ?? '') : '';
  const reading = filled.length > 1 ? (filled.pop() ?? '') : '';
  return { panel: filled[0] ?? '', point: filled.slice(1).join(' '), reading, unit };
}

function rowOf(row: number, cells: Cells, rules: GaugeRules, known: ReadonlyMap<string, PanelId>): GaugeRow {
  const panel = known.get(wordsOf(cells.panel));
  if (!panel)
    return refuse('READING_PANEL', {
      ...{ row, text: cells.panel, body: rules.body },
      panels: [...new Set(rules.nameOf.values())],
    });
  const unit = cells.unit === '' ? rules.unit : unitOf(cells.unit);
  if (!unit) return refuse('READING_UNREADABLE', { row, column: 'unit', text: cells.unit });
  const figure = cells.reading.replace(',', '.');
  if (!/^-?\d+(\.\d+)?$/.test(figure))
    return refuse('READING_UNREADABLE', { row, column: 'reading', text: cells.reading });
  // A unit written beside the figure leaves no doubt.
  const tenthUm = toTenthUm(Number(figure), unit, rules.sure || cells.unit !== '', row);
  return { row, panel, point: cells.point || null, tenthUm };
}

function unitOf(text: string): FilmUnit | null {
  const unit = text.toLowerCase();
  if (['um', 'µm', 'μm', 'micron', 'microns'].includes(unit)) return 'um';
  return ['mil', 'mils'].includes(unit) ? 'mil' : null;
}
