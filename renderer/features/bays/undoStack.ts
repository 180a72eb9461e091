import { useSyncExternalStore } from 'react';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import type { PlanChange, StandingFault } from '#core/shared/views/planChange.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import { useMe } from '../../bridge/person.ts';
import type { HeldMode } from './held.ts';

/** What was done on the board, as it is named where it can be taken back. */
export type Deed = {
  readonly kind: HeldMode | 'swap' | 'replan';
  readonly who: string;
  readonly other?: string;
  readonly stage?: StageKind;
  /** Cars that a re-plan moved. */
  readonly count?: number;
};
/** A change with what takes it back. */
export type Taken = {
  readonly deed: Deed;
  readonly plans: readonly JobPlanView[];
  readonly standing: readonly StandingFault[];
  readonly left: readonly JobPlanView[];
};
export type UndoStack = { readonly past: readonly Taken[]; readonly future: readonly Taken[] };

const HEAD = 'rakelight.undo.';
const MOST = 12;
const EMPTY: UndoStack = { past: [], future: [] };
const stacks = new Map<string, UndoStack>();
const listeners = new Set<() => void>();

export function takenOf(deed: Deed, { undo, standing, left }: PlanChange): Taken {
  return { deed, plans: undo, standing, left };
}

/**
 * The changes of the plan that one person made in this window, with what takes them back: they stay while the person
 * walks between places and over a reload, and are forgotten with the window.
 */
export function useUndoStack(): readonly [UndoStack, (next: UndoStack) => void] {
  const who = useMe()?.personId ?? '';
  const stack = useSyncExternalStore(
    (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
    () => stackOf(who),
  );
  return [stack, (next) => put(who, next)];
}

function stackOf(who: string): UndoStack {
  const known = stacks.get(who) ?? kept(who);
  stacks.set(who, known);
  return known;
}

function kept(who: string): UndoStack {
  try {
    const found = JSON.parse(sessionStorage.getItem(HEAD + who) ?? 'null') as UndoStack | null;
    return found ?? EMPTY;
  } catch {
    return EMPTY;
  }
}

function put(who: string, { past, future }: UndoStack): void {
  const next = { past: past.slice(-MOST), future: future.slice(-MOST) };
  stacks.set(who, next);
  try {
    sessionStorage.setItem(HEAD + who, JSON.stringify(next));
  } catch {
    // The store is full: the changes stay until the next reload.
    sessionStorage.removeItem(HEAD + who);
  }
  for (const tell of listeners) tell();
}
