export type LifeBudget = {
  readonly cap: number;
  readonly taken: number;
  readonly planned: number;
  /** Null where the clear coat now on the panel is not known. */
  readonly left: number | null;
  readonly historyKnown: boolean;
};

export type BudgetCase = {
  readonly capTenthUm: number;
  readonly takenTenthUm: readonly number[];
  readonly plannedTenthUm: number;
  readonly refinished: boolean;
  /** False unless the vehicle was new at its first visit: what others took is unknown, not zero. */
  readonly historyKnown: boolean;
};

/**
 * What may still be polished off a panel over the vehicle's life, 0.1 µm. Never negative.
 * A refinished panel has a new stack of unknown clear: left is null.
 * @source cap of 7.5 µm: common practice, no source
 */
export function lifeBudget(c: BudgetCase): LifeBudget {
  const taken = c.takenTenthUm.reduce((a, b) => a + b, 0);
  const left = c.refinished ? null : Math.max(0, c.capTenthUm - taken - c.plannedTenthUm);
  return {
    cap: c.capTenthUm,
    taken,
    planned: c.plannedTenthUm,
    left,
    historyKnown: c.historyKnown && !c.refinished,
  };
}

/**
 * Most that this job may take off a panel, 0.1 µm: the smaller of what is left of the life budget and what the
 * lowest spot, less its uncertainty, has above the shop's floor. Null where film is unknown.
 */
export function safeRemoval(
  floorOfPanel: number | null,
  shopFloor: number,
  cap: number,
  taken: number,
  refinished: boolean,
): number | null {
  if (floorOfPanel === null || refinished) return null;
  return Math.max(0, Math.min(cap - taken, floorOfPanel - shopFloor));
}
