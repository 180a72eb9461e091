/** A row of a list as it was read: its cells, and how many empty lines of the file came before it. */
export type ListRow = { readonly cells: readonly string[]; readonly emptyBefore: number };

/**
 * The line on which each row begins, from 1, and last the one on which the next would. A cell in quotes may span
 * several lines; a row is found by its first.
 * @param emptyAfter empty lines of the file up to that next row
 * @source RFC 4180, section 2 (6): fields containing line breaks
 */
export function firstLines(rows: readonly ListRow[], emptyAfter = 0): readonly number[] {
  let before = 0;
  const lines = rows.map(({ cells, emptyBefore }) => {
    const line = before + emptyBefore + 1;
    before += 1 + cells.reduce((sum, cell) => sum + breaksIn(cell), 0);
    return line;
  });
  return [...lines, before + emptyAfter + 1];
}

function breaksIn(cell: string): number {
  return cell.match(/\r\n|\r|\n/g)?.length ?? 0;
}
