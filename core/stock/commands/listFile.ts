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

function named(rows: readonly ListRow[]): readonly (readonly [line: number, cells: Cells])[] | ListFault {
  const lines = firstLines(rows);
  const columns = rows[0]?.cells ?? [];
  const long = rows.findIndex((row) => row.cells.length > columns.length);
  if (long >= 0) return { line: lines[long] ?? 1, field: 'csv', problem: 'moreCells' };
  return rows
    .map(
      ({ cells }, at) =>
        [lines[at] ?? 1, Object.fromEntries(columns.map((c, i) => [c, cells[i] ?? '']))] as const,
    )
    .slice(1);
}

/** A cell without the apostrophe that keeps spreadsheets from running it, and without blanks around it. */
export function plainCell(text: string): string {
  return text.replace(/^'(?=[=+\-@])/, '').trim();
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
