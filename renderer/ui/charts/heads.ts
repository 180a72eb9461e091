/** What stands at one column: its own word, and what it is one of several of, such as the year of a month. */
export type ColumnHead = { readonly head: string; readonly group?: string };

/**
 * Heads as they stand, every `step`-th of them: the group on a second line at the first one and wherever it is another
 * than at the one shown before; empty between.
 */
export function headLines(heads: readonly ColumnHead[], step = 1): readonly string[] {
  return heads.map(({ head, group }, i) => {
    if (i % step !== 0) return '';
    return group && group !== heads[i - step]?.group ? `${head}\n${group}` : head;
  });
}
