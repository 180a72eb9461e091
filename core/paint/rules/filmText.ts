import { refuse } from '../../shared/errors.ts';
import { TENTH_UM_PER_MIL } from '../../shared/units.ts';
import { PANELS, type PanelId } from '../../shared/vocabulary.ts';

export type FilmUnit = 'um' | 'mil';

/** No paint reads outside this, bare primer and filler included. 0.1 µm. Common practice, no source. */
const LEAST = 50;
const MOST = 50_000;
/** Below 15 typed as µm it is likely mil; above 40 typed as mil it is likely µm. Common practice, no source. */
const MIL_LIKE_UM = 15;
const UM_LIKE_MIL = 40;

/**
 * A typed reading as 0.1 µm, half away from zero. `sure` = somebody has confirmed the unit.
 * @example toTenthUm(105.8, 'um', false) //=> 1058
 * @throws FILM_UNIT_DOUBTFUL when the value fits the other unit far better and nobody has confirmed it
 * @throws FILM_ABSURD when no paint reads so
 * @source 1 mil = 25.4 µm exactly
 */
export function toTenthUm(value: number, unit: FilmUnit, sure: boolean): number {
  if (!(value > 0) || !Number.isFinite(value)) return refuse('FILM_ABSURD', { value, unit });
  const other: FilmUnit = unit === 'um' ? 'mil' : 'um';
  const doubtful = unit === 'um' ? value < MIL_LIKE_UM : value > UM_LIKE_MIL;
  if (doubtful && !sure) return refuse('FILM_UNIT_DOUBTFUL', { value, unit, other });
  const tenth = Math.round(unit === 'um' ? value * 10 : value * TENTH_UM_PER_MIL);
  if (tenth < LEAST || tenth > MOST) return refuse('FILM_ABSURD', { value, unit });
  return tenth;
}

export type GaugeRow = { readonly panel: PanelId; readonly point: string | null; readonly tenthUm: number };

/** How one text is laid out: what splits its columns, and what each holds. */
type Layout = {
  readonly split: string;
  /** Names of the columns; null without a heading, when a row is panel, point, reading, unit. */
  readonly header: readonly string[] | null;
};
type Cells = {
  readonly panel: string;
  readonly point: string;
  readonly reading: string;
  readonly unit: string;
};
type Taking = {
  readonly shopUnit: FilmUnit;
  readonly sure: boolean;
  readonly panelOf: (text: string) => PanelId | null;
  readonly panels: readonly PanelId[];
};

/**
 * Readings pasted or exported from a gauge, one a row, split by comma, semicolon or tab. With a heading: panel and
 * reading are needed, point and unit may be there, in any order. Without: panel, point, reading, unit, where point and
 * unit may be left out. Panels by id or by name (`nameOf`), the words of a name in any order.
 * A comma in a figure is a decimal point when the columns are split by something else.
 * Nothing is taken in unless every row can be read.
 * @throws READING_COLUMNS, READING_PANEL and READING_UNREADABLE with the row, NO_READING
 */
export function parseGaugeText(
  text: string,
  shopUnit: FilmUnit,
  sure: boolean,
  nameOf: ReadonlyMap<string, PanelId>,
): GaugeRow[] {
  if (text.includes('\uFFFD'))
    return refuse('READING_UNREADABLE', { row: 1, column: 'encoding', text: '\uFFFD' });
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const layout = layoutOf(lines[0] ?? '');
  const known = new Map([...nameOf].map(([name, panel]) => [wordsOf(name), panel]));
  const panelOf = (said: string): PanelId | null =>
    PANELS.find((p) => p === said.toLowerCase()) ?? known.get(wordsOf(said)) ?? null;
  const taking = { shopUnit, sure, panelOf, panels: [...nameOf.values()] };
  const rows = lines.flatMap((line, i) => {
    if (line.trim() === '' || (i === 0 && layout.header !== null)) return [];
    return [rowOf(cellsOf(line, layout), i + 1, taking)];
  });
  return rows.length > 0 ? rows : refuse('NO_READING', {});
}

/** `Door, left front` and `left front door` are one panel. */
function wordsOf(name: string): string {
  return (name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []).sort().join(' ');
}

function layoutOf(first: string): Layout {
  const split = ['\t', ';', ','].find((s) => first.includes(s)) ?? ',';
  const cells = first.split(split).map((c) => c.trim().toLowerCase());
  const named = (['panel', 'reading'] as const).filter((name) => cells.includes(name));
  if (named.length === 0) return { split, header: null };
  if (named.length === 2) return { split, header: cells };
  return refuse('READING_COLUMNS', { missing: named[0] === 'panel' ? 'reading' : 'panel' });
}

function cellsOf(line: string, { split, header }: Layout): Cells {
  const cells = line.split(split).map((c) => c.trim());
  const at = (name: string): string => cells[header?.indexOf(name) ?? -1] ?? '';
  if (header) return { panel: at('panel'), point: at('point'), reading: at('reading'), unit: at('unit') };
  const last = cells.at(-1)?.toLowerCase() ?? '';
  const unit = unitOf(last) ? (cells.pop() ?? '') : '';
  const reading = cells.length > 1 ? (cells.pop() ?? '') : '';
  return { panel: cells[0] ?? '', point: cells.slice(1).join(' '), reading, unit };
}

function rowOf(cells: Cells, row: number, { shopUnit, sure, panelOf, panels }: Taking): GaugeRow {
  const panel = panelOf(cells.panel);
  if (!panel) return refuse('READING_PANEL', { row, text: cells.panel, panels });
  const typed = cells.unit.toLowerCase();
  const unit = typed === '' ? shopUnit : unitOf(typed);
  if (!unit) return refuse('READING_UNREADABLE', { row, column: 'unit', text: cells.unit });
  const figure = cells.reading.replace(',', '.');
  if (!/^\d+(\.\d+)?$/.test(figure))
    return refuse('READING_UNREADABLE', { row, column: 'reading', text: cells.reading });
  // A unit written beside the figure leaves no doubt.
  const tenthUm = toTenthUm(Number(figure), unit, sure || typed !== '');
  return { panel, point: cells.point || null, tenthUm };
}

function unitOf(text: string): FilmUnit | null {
  if (['um', 'µm', 'μm', 'micron', 'microns'].includes(text)) return 'um';
  return ['mil', 'mils'].includes(text) ? 'mil' : null;
}
