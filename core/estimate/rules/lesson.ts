/**
 * How many of `done` finished stages the current lesson takes in: every one up to 100, then only when a further
 * fiftieth has come. Depends on nothing but the count.
 * @example lessonSize(60) //=> 60
 */
export function lessonSize(done: number): number {
  let size = Math.min(done, 100);
  for (;;) {
    const next = size + Math.max(1, Math.floor(size / 50));
    if (next > done) return size;
    size = next;
  }
}
