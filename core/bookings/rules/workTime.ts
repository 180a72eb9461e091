/** Time worked: stretches of one person on one stage. Instants UTC epoch ms, half-open, `endMs` null while running. */
export type Stretch = {
  readonly id: number;
  readonly stageId: string;
  readonly personId: string;
  readonly startMs: number;
  readonly endMs: number | null;
};
export type Clash = { readonly first: Stretch; readonly second: Stretch };

/**
 * Attended labour in ms: every person's stretches added up, a running one up to `nowMs`.
 * Two people on one stage for an hour are two hours of labour.
 * A running stretch that starts after `nowMs` (a clock set back) counts 0.
 */
export function attendedMs(stretches: readonly Stretch[], nowMs: number): number {
  return stretches.reduce((sum, s) => sum + Math.max(0, (s.endMs ?? nowMs) - s.startMs), 0);
}

/**
 * The first stretch of the same person that a typed-in stretch would overlap, or null.
 * Touching ends do not overlap. A running stretch reaches to `nowMs`.
 */
export function typedClash(
  typed: { readonly personId: string; readonly startMs: number; readonly endMs: number },
  others: readonly Stretch[],
  nowMs: number,
): Stretch | null {
  const hit = others.find(
    (o) =>
      o.personId === typed.personId &&
      o.startMs < typed.endMs &&
      typed.startMs < Math.max(o.endMs ?? nowMs, o.startMs + 1),
  );
  return hit ?? null;
}

/**
 * Pairs of recorded stretches of one person that overlap: what happened is kept and shown as a conflict.
 * Sorted by start; each pair once.
 */
export function recordedClashes(stretches: readonly Stretch[], nowMs: number): readonly Clash[] {
  const sorted = [...stretches].sort((a, b) => a.startMs - b.startMs || a.id - b.id);
  const found: Clash[] = [];
  for (const [i, first] of sorted.entries()) {
    for (const second of sorted.slice(i + 1)) {
      if (second.startMs >= (first.endMs ?? nowMs)) break;
      if (second.personId === first.personId) found.push({ first, second });
    }
  }
  return found;
}

/**
 * Minutes that an unattended stage still lacked when something else was started on the car.
 * Whole minutes, rounded up; 0 when it had run its time.
 */
export function cureMissingMin(startedMs: number, dwellMin: number, endedMs: number): number {
  return Math.max(0, Math.ceil((startedMs + dwellMin * 60_000 - endedMs) / 60_000));
}
