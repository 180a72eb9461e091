export type SpareTime = {
  /** Somebody asked: what was begun is left, and begun anew once it has been quiet for a while. */
  readonly asked: () => void;
  /** Nothing is begun any more. */
  readonly stop: () => void;
};

/** Milliseconds: how long nobody must have asked, and after how long something is looked for again. */
type Waits = { readonly quietMs: number; readonly againMs: number };

/** A page that opens asks its questions within a second. A new day is noticed before anybody comes. */
const WAITS: Waits = { quietMs: 1000, againMs: 15 * 60_000 };

/**
 * Does work while nobody asks, step by step; whoever asks waits for one step at most. It may be left after any of them, and
 * is never the reason that a worker stays. What fails is told, and tried again with the next quiet moment.
 */
export function inSpareTime(
  work: () => Iterator<unknown>,
  log: (line: string) => void,
  { quietMs, againMs }: Waits = WAITS,
): SpareTime {
  let wait: NodeJS.Timeout | undefined;
  let next: NodeJS.Immediate | undefined;
  let stopped = false;
  const rest = (): void => {
    clearTimeout(wait);
    clearImmediate(next);
  };
  const beginIn = (ms: number): void => {
    rest();
    if (!stopped) wait = setTimeout(() => go(null), ms).unref();
  };
  const go = (begun: Iterator<unknown> | null): void => {
    try {
      const steps = begun ?? work();
      if (steps.next().done !== true) {
        next = setImmediate(() => go(steps));
        return;
      }
    } catch (error) {
      log(`spare time: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
    beginIn(againMs);
  };
  return {
    asked: () => beginIn(quietMs),
    stop: () => {
      stopped = true;
      rest();
    },
  };
}
