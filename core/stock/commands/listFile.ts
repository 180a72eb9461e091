import { CsvError, parse } from 'csv-parse/sync';
import { delimiterOf } from '../../shared/delimiter.ts';
import type { ListFault } from '../../shared/views/stockItem.ts';

/** One line of a list by its columns. */
export type Cells = Readonly<Record<string, string>>;
type Line = { readonly record: Cells; readonly info: { readonly lines: number } };

/**
 * The lines of a list with where they stand in the file, or what is wrong with it. Cells left out at the end of a line
 * are empty.
 * @source RFC 4180, the first line names the columns
 */
export function recordsOf(csv: string): readonly (readonly [line: number, cells: Cells])[] | ListFault {
  const layout = {
    delimiter: delimiterOf(csv),
    bom: true,
    columns: true,
    skip_empty_lines: true,
    info: true,
  } as const;
  try {
    const lines = parse(csv, { ...layout, relax_column_count_less: true }) as unknown as readonly Line[];
    return lines.map(({ record, info }) => [info.lines, record]);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Number((error as { readonly lines?: number }).lines ?? 1);
    const tooMany = error.code === 'CSV_RECORD_INCONSISTENT_COLUMNS';
    return { line, field: 'csv', problem: tooMany ? 'moreCells' : 'noList' };
  }
}

/** A cell without the apostrophe that keeps spreadsheets from running it, and without blanks around it. */
export function plainCell(text: string): string {
  return text.replace(/^'(?=[=+\-@])/, '').trim();
}
