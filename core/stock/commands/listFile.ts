import { CsvError, parse } from 'csv-parse/sync';
import type { ListFault } from '../../shared/views/stockItem.ts';

/** One line of a list by its columns. */
export type Cells = Readonly<Record<string, string>>;

/** The lines of a list, or that it is none. @source RFC 4180, the first line names the columns */
export function recordsOf(csv: string): readonly Cells[] | ListFault {
  try {
    return parse(csv, { bom: true, columns: true, skip_empty_lines: true }) as Cells[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Number((error as { readonly lines?: number }).lines ?? 1);
    return { line, field: 'csv', problem: 'noList' };
  }
}

/** A cell without the apostrophe that keeps spreadsheets from running it, and without blanks around it. */
export function plainCell(text: string): string {
  return text.replace(/^'(?=[=+\-@])/, '').trim();
}
