/** Which letters differ between two names, by place (0-based, code points). */
export type LetterDiff = {
  readonly letters: number;
  readonly inFirst: readonly number[];
  readonly inSecond: readonly number[];
};

/** A known customer is offered instead of a new one when at most this many letters differ. */
export const LETTERS_OFF = 2;

/**
 * The fewest letters to change, add or leave out to make one name the other, and where. Case does not count.
 * @source edit distance, V. I. Levenshtein, Soviet Physics Doklady 10 (1966) 707–710
 * @example letterDiff('Ilsa Tarn', 'Ilse Tarne') //=> { letters: 2, inFirst: [3], inSecond: [3, 9] }
 */
export function letterDiff(first: string, second: string): LetterDiff {
  const a = [...first.toLowerCase()];
  const b = [...second.toLowerCase()];
  const table = distances(a, b);
  const inFirst: number[] = [];
  const inSecond: number[] = [];
  const at = (i: number, j: number): number => table[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = a.length, j = b.length; i > 0 || j > 0; ) {
    const same = i > 0 && j > 0 && a[i - 1] === b[j - 1];
    if (i > 0 && j > 0 && at(i, j) === at(i - 1, j - 1) + (same ? 0 : 1)) {
      i -= 1;
      j -= 1;
      if (!same) inFirst.push(i);
      if (!same) inSecond.push(j);
    } else if (j > 0 && at(i, j) === at(i, j - 1) + 1) {
      j -= 1;
      inSecond.push(j);
    } else {
      i -= 1;
      inFirst.push(i);
    }
  }
  return { letters: at(a.length, b.length), inFirst: inFirst.reverse(), inSecond: inSecond.reverse() };
}

function distances(a: readonly string[], b: readonly string[]): number[][] {
  const rows: number[][] = [b.map((_, j) => j).concat(b.length)];
  for (let i = 1; i <= a.length; i += 1) {
    const above = rows[i - 1] ?? [];
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const swap = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(swap, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    rows.push(row);
  }
  return rows;
}
