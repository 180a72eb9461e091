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

/**
 * Readings pasted or exported from a gauge: a header row, then one reading a row, split by comma, semicolon or tab.
 * Columns panel and reading are needed, point and unit may be there, in any order; panels by id or by name
 * (`nameOf`). A comma in a figure is a decimal point when the columns are split by something else.
 * Nothing is taken in unless every row can be read.
 * @throws READING_COLUMNS, READING_UNREADABLE with row and column, NO_READING
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
  const split = ['\t', ';', ','].find((s) => lines[0]?.includes(s)) ?? ',';
  const header = (lines[0] ?? '').split(split).map((c) => c.trim().toLowerCase());
  for (const missing of ['panel', 'reading'] as const)
    if (!header.includes(missing)) return refuse('READING_COLUMNS', { missing });
  const rows = lines.slice(1).flatMap((line, i) => {
    if (line.trim() === '') return [];
    const cells = line.split(split).map((c) => c.trim());
    const cell = (name: string): string => cells[header.indexOf(name)] ?? '';
    return [rowOf(cell, i + 2, shopUnit, sure, nameOf)];
  });
  return rows.length > 0 ? rows : refuse('NO_READING', {});
}

function rowOf(
  cell: (name: string) => string,
  row: number,
  shopUnit: FilmUnit,
  sure: boolean,
  nameOf: ReadonlyMap<string, PanelId>,
): GaugeRow {
  const name = cell('panel').toLowerCase();
  const panel = PANELS.find((p) => p === name) ?? nameOf.get(name);
  if (!panel) return refuse('READING_UNREADABLE', { row, column: 'panel', text: cell('panel') });
  const typed = cell('unit').toLowerCase();
  const unit = typed === '' ? shopUnit : unitOf(typed);
  if (!unit) return refuse('READING_UNREADABLE', { row, column: 'unit', text: cell('unit') });
  const figure = cell('reading').replace(',', '.');
  if (!/^\d+(\.\d+)?$/.test(figure))
    return refuse('READING_UNREADABLE', { row, column: 'reading', text: cell('reading') });
  // A unit written beside the figure leaves no doubt.
  return {
    panel,
    point: cell('point') || null,
    tenthUm: toTenthUm(Number(figure), unit, sure || typed !== ''),
  };
}

function unitOf(text: string): FilmUnit | null {
  if (['um', 'µm', 'μm', 'micron', 'microns'].includes(text)) return 'um';
  return ['mil', 'mils'].includes(text) ? 'mil' : null;
}
