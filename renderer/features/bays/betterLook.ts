import { useState } from 'react';
import { better } from '#core/shared/betterPlan.ts';
import type { ReplanView } from '#core/shared/views/plan.ts';

/** What is shown of two looks, and whether the longer one found nothing better. */
export type Shown = { readonly view: ReplanView; readonly nothingBetter: boolean };

/** A longer look begins anew and may end worse: what was in hand stays, where it is of the same plan of the bays. */
export function betterLook(before: ReplanView | null, found: ReplanView): Shown {
  const same = before !== null && before.planRevision === found.planRevision;
  if (same && !better(found.after, before.after)) {
    const nothingBetter = found.proved !== 'plan';
    return { view: nothingBetter ? before : found, nothingBetter };
  }
  return { view: found, nothingBetter: false };
}

/** Keeps what the look before found while a longer one goes on; `hold` at its start, with null for another question. */
export function useBetterLook(found: ReplanView | undefined) {
  const [before, hold] = useState<ReplanView | null>(null);
  return { shown: found ? betterLook(before, found) : undefined, hold };
}
