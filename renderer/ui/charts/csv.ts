/** The figures behind a chart. */
export type ChartTable = {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
};

function csvCell(value: string | number): string {
  const text = String(value);
  // A leading sign makes a spreadsheet run the cell as a formula.
  const safe = /^[=+\-@\t\r]/.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text;
  return /[",\n\r]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** The table as RFC 4180 text with a byte order mark, so that spreadsheets read its letters right. */
export function csvOf(table: ChartTable): string {
  const lines = [table.columns, ...table.rows].map((row) => row.map(csvCell).join(','));
  return `\uFEFF${lines.join('\r\n')}\r\n`;
}
