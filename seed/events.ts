/** What happens in the demo shop, in the order of the clock: commands that go through the door must never go back in time. */
export type Events = {
  /** Does `work` at `atMs`, or now when that is past already. */
  at(atMs: number, work: (nowMs: number) => void): void;
  /** Runs everything up to `untilMs`; `tick` is called now and then with the time reached. */
  run(untilMs: number, tick: (nowMs: number) => void): void;
};

const TICK_EVERY = 200;

/** Nothing happens before `fromMs`: what is asked for an earlier time happens then. */
export function events(fromMs: number): Events {
  const due: Heap = [];
  let asked = 0;
  let nowMs = fromMs;
  return {
    at: (atMs, work) => {
      asked += 1;
      push(due, { atMs: Math.max(atMs, nowMs), order: asked, work });
    },
    run: (untilMs, tick) => {
      for (let done = 1; due[0] && due[0].atMs <= untilMs; done += 1) {
        const next = takeFirst(due);
        nowMs = next.atMs;
        next.work(nowMs);
        if (done % TICK_EVERY === 0) tick(nowMs);
      }
    },
  };
}

type Due = { readonly atMs: number; readonly order: number; readonly work: (nowMs: number) => void };
/** A binary heap by time, then by the order of asking, so that the same seed tells the same story. */
type Heap = Due[];

function isBefore(heap: Heap, i: number, j: number): boolean {
  const [a, b] = [heap[i] as Due, heap[j] as Due];
  return a.atMs < b.atMs || (a.atMs === b.atMs && a.order < b.order);
}

function swap(heap: Heap, i: number, j: number): void {
  [heap[i], heap[j]] = [heap[j] as Due, heap[i] as Due];
}

function push(heap: Heap, due: Due): void {
  heap.push(due);
  for (let i = heap.length - 1; i > 0; ) {
    const parent = (i - 1) >> 1;
    if (!isBefore(heap, i, parent)) return;
    swap(heap, i, parent);
    i = parent;
  }
}

function takeFirst(heap: Heap): Due {
  swap(heap, 0, heap.length - 1);
  const first = heap.pop() as Due;
  for (let i = 0; ; ) {
    const [left, right] = [2 * i + 1, 2 * i + 2];
    if (left >= heap.length) return first;
    const least = right < heap.length && isBefore(heap, right, left) ? right : left;
    if (!isBefore(heap, least, i)) return first;
    swap(heap, i, least);
    i = least;
  }
}
