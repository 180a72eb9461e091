import { CsvError, parse } from 'csv-parse/sync';
import { delimiterOf } from '../../shared/delimiter.ts';
import { refuse } from '../../shared/errors.ts';
import { type GaugeRow, type GaugeRules, gaugeRows, type TextRow } from '../rules/filmText.ts';

type Parsed = { readonly record: readonly string[]; readonly info: { readonly lines: number } };

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
  const layout = { delimiter: delimiterOf(text), bom: true, trim: true, info: true } as const;
  const lenient = { relax_column_count: true, relax_quotes: true, skip_empty_lines: true } as const;
  try {
    const parsed = parse(text, { ...layout, ...lenient }) as unknown as readonly Parsed[];
    return parsed.map(({ record, info }) => ({ row: info.lines, cells: record }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const row = Number((error as { readonly lines?: number }).lines ?? 1);
    return refuse('READING_UNREADABLE', { row, column: 'quotes', text: '"' });
  }
}
