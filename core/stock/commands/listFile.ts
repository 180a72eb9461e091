import { CsvError, parse } from 'csv-parse/sync';
import { delimiterOf } from '../../shared/delimiter.ts';
import { type DecimalSign, decimalSignOf } from '../../shared/listFigures.ts';
import { firstLines, type ListRow } from '../../shared/listLines.ts';
import type { ListFault } from '../../shared/views/stockItem.ts';

/** One line of a list by its columns. */
export type Cells = Readonly<Record<string, string>>;

/**
 * The rows of a list with the lines they begin on, or what is wrong with it. Cells left out at the end of a row are
 * empty.
 * @source RFC 4180, the first row names the columns
 */
export function recordsOf(csv: string): readonly (readonly [line: number, cells: Cells])[] | ListFault {
  const rows: ListRow[] = [];
  const layout = { delimiter: delimiterOf(csv), bom: true, skip_empty_lines: true, relax_column_count: true };
  function keep(cells: readonly string[], { empty_lines }: Info): null {
    rows.push({ cells, emptyBefore: empty_lines });
    return null;
  }
  try {
    parse(csv, { ...layout, on_record: keep });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { empty_lines } = error as Partial<Info>;
    return { line: firstLines(rows, empty_lines).at(-1) ?? 1, field: 'csv', problem: 'noList' };
  }
  return named(rows);
}
type Info = { readonly empty_lines: number };

type Rows = readonly (readonly string[])[];

/** Rows by their columns; lines and columns at the end that are empty, as spreadsheets leave them, are not there. */
function named(rows: readonly ListRow[]): readonly (readonly [line: number, cells: Cells])[] | ListFault {
  const lines = firstLines(rows);
  const filled = rows.map(({ cells }) =>
    cells.slice(0, cells.findLastIndex((cell) => cell.trim() !== '') + 1),
  );
  const columns = (filled[0] ?? []).map((name) => name.trim());
  const fault = layoutFault(filled, columns);
  if (fault) return { line: lines[fault.row] ?? 1, field: fault.field, problem: fault.problem };
  return filled
    .map(
      (cells, at) =>
        [lines[at] ?? 1, Object.fromEntries(columns.map((c, i) => [c, cells[i] ?? '']))] as const,
    )
    .filter((_, at) => at > 0 && filled[at]?.length !== 0);
}

/** What bytes that are no UTF-8 were read as. */
const NO_LETTER = '\uFFFD';

type LayoutFault = Pick<ListFault, 'field' | 'problem'> & { readonly row: number };

/** What is wrong with a list before its single cells are looked at. */
function layoutFault(rows: Rows, columns: readonly string[]): LayoutFault | null {
  if (columns.includes('')) return { row: 0, field: 'csv', problem: 'columnUnnamed' };
  const twice = columns.find((name, i) => columns.indexOf(name) < i);
  if (twice !== undefined) return { row: 0, field: twice, problem: 'columnTwice' };
  const long = rows.findIndex((cells) => cells.length > columns.length);
  if (long >= 0) return { row: long, field: 'csv', problem: 'moreCells' };
  const spoilt = rows.findIndex((cells) => cells.some((cell) => cell.includes(NO_LETTER)));
  return spoilt < 0 ? null : { row: spoilt, field: 'csv', problem: 'notUtf8' };
}

/** A cell on one line, without the apostrophe that keeps spreadsheets from running it and without blanks around it. */
export function plainCell(text: string): string {
  return text
    .replace(/^'(?=[=+\-@])/, '')
    .replace(/\s*[\r\n]+\s*/g, ' ')
    .trim();
}

/** The decimal sign of the figures in a column; null where nobody can know it. */
export function decimalSignIn(
  csv: string,
  rows: readonly (readonly [line: number, cells: Cells])[],
  column: string,
): DecimalSign | null {
  const figures = rows.map(([, cells]) => plainCell(cells[column] ?? ''));
  return decimalSignOf(figures, delimiterOf(csv));
}
