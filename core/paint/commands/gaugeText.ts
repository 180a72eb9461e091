import { CsvError, parse } from 'csv-parse/sync';
import { delimiterOf } from '../../shared/delimiter.ts';
import { refuse } from '../../shared/errors.ts';
import { firstLines, type ListRow } from '../../shared/listLines.ts';
import { type GaugeRow, type GaugeRules, gaugeRows, type TextRow } from '../rules/filmText.ts';

/**
 * Readings pasted or exported from a gauge, all or none: columns split by tab, semicolon or comma, cells in quotes or
 * not, empty rows left out.
 * @throws READING_UNREADABLE where a quote is never closed, and what `gaugeRows` does
 * @source RFC 4180
 */
export function parseGaugeText(text: string, rules: GaugeRules): GaugeRow[] {
  return gaugeRows(tableOf(text), rules);
}

function tableOf(text: string): TextRow[] {
  const rows: ListRow[] = [];
  const layout = { delimiter: delimiterOf(text), bom: true, trim: true } as const;
  const lenient = { relax_column_count: true, relax_quotes: true, skip_empty_lines: true } as const;
  function keep(cells: readonly string[], { empty_lines }: Info): null {
    rows.push({ cells, emptyBefore: empty_lines });
    return null;
  }
  try {
    parse(text, { ...layout, ...lenient, on_record: keep });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const row = firstLines(rows, (error as Partial<Info>).empty_lines).at(-1) ?? 1;
    return refuse('READING_UNREADABLE', { row, column: 'quotes', text: '"' });
  }
  const lines = firstLines(rows);
  return rows.map(({ cells }, at) => ({ row: lines[at] ?? 1, cells }));
}
type Info = { readonly empty_lines: number };
