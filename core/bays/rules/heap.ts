/** Rows of which the least is asked for, again and again. */
export type Heap<T> = { readonly push: (row: T) => void; readonly pop: () => T | undefined };

/** A binary heap. `compare` is below 0 where the first row is to come out first. */
export function heapOf<T>(compare: (a: T, b: T) => number): Heap<T> {
  const rows: T[] = [];
  const isFirst = (a: number, b: number): boolean => compare(rows[a] as T, rows[b] as T) < 0;
  const swap = (a: number, b: number): void => {
    [rows[a], rows[b]] = [rows[b] as T, rows[a] as T];
  };
  const sink = (from: number): void => {
    for (let at = from; ; ) {
      const [left, right] = [2 * at + 1, 2 * at + 2];
      const child = right < rows.length && isFirst(right, left) ? right : left;
      if (child >= rows.length || !isFirst(child, at)) return;
      swap(at, child);
      at = child;
    }
  };
  return {
    push: (row) => {
      rows.push(row);
      for (let at = rows.length - 1; at > 0 && isFirst(at, (at - 1) >> 1); at = (at - 1) >> 1)
        swap(at, (at - 1) >> 1);
    },
    pop: () => {
      const first = rows[0];
      const last = rows.pop();
      if (rows.length > 0) {
        rows[0] = last as T;
        sink(0);
      }
      return first;
    },
  };
}
