/** What happens to some in the order in which they come up: every so many, so that even a short story has each once. */
const TURNS = {
  declined: [9, 14],
  noShow: [7, 50],
  depositKept: [4, 40],
  stopped: [6, 70],
  redo: [8, 80],
  insured: [5, 30],
  testSpot: [2, 7],
  readAfter: [2, 3],
  waiting: [1, 3],
  slowPayer: [6, 16],
  partPayer: [9, 24],
} as const satisfies Readonly<Record<string, readonly [first: number, every: number]>>;
export type Turn = keyof typeof TURNS;
export type Turns = (turn: Turn) => boolean;

/** Counts how often each turn came up and says whether it is one that takes it. */
export function turns(): Turns {
  const seen = new Map<Turn, number>();
  return (turn) => {
    const count = (seen.get(turn) ?? 0) + 1;
    seen.set(turn, count);
    const [first, every] = TURNS[turn];
    return count >= first && (count - first) % every === 0;
  };
}
