/** What happens in the demo shop, in the order of the clock: commands that go through the door must never go back in time. */
export type Events = {
  /** Does `work` at `atMs`, or now when that is past already. */
  at(atMs: number, work: (nowMs: number) => void): void;
  /** Runs everything up to `untilMs`; `tick` is called now and then with the time reached. */
  run(untilMs: number, tick: (nowMs: number) => void): void;
};

type Due = { readonly atMs: number; readonly order: number; readonly work: (nowMs: number) => void };

/** A binary heap by time, then by the order of asking, so that the same seed tells the same story. */
export function events(): Events {
  const heap: Due[] = [];
  let order = 0;
  let nowMs = 0;
  const before = (a: Due, b: Due): boolean => a.atMs < b.atMs || (a.atMs === b.atMs && a.order < b.order);
  const swap = (i: number, j: number): void => {
    const a = heap[i] as Due;
    heap[i] = heap[j] as Due;
    heap[j] = a;
  };
  const up = (from: number): void => {
    for (let i = from; i > 0; ) {
      const parent = (i - 1) >> 1;
      if (!before(heap[i] as Due, heap[parent] as Due)) return;
      swap(i, parent);
      i = parent;
    }
  };
  const down = (): void => {
    for (let i = 0; ; ) {
      const left = 2 * i + 1;
      if (left >= heap.length) return;
      const right = left + 1;
      const least = right < heap.length && before(heap[right] as Due, heap[left] as Due) ? right : left;
      if (!before(heap[least] as Due, heap[i] as Due)) return;
      swap(i, least);
      i = least;
    }
  };
  const take = (): Due => {
    swap(0, heap.length - 1);
    const due = heap.pop() as Due;
    down();
    return due;
  };
  return {
    at: (atMs, work) => {
      order += 1;
      heap.push({ atMs: Math.max(atMs, nowMs), order, work });
      up(heap.length - 1);
    },
    run: (untilMs, tick) => {
      let done = 0;
      while (heap.length > 0 && (heap[0] as Due).atMs <= untilMs) {
        const due = take();
        nowMs = due.atMs;
        due.work(nowMs);
        done += 1;
        if (done % 200 === 0) tick(nowMs);
      }
    },
  };
}
