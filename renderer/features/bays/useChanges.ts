import { useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { RemedyMove } from '#core/shared/views/desk.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import type { PlanChange } from '#core/shared/views/planChange.ts';
import { type Outcome, useCommand } from '../../bridge/commands.ts';
import { moveAsk, plainPlans, type SwapAsk } from './asks.ts';
import type { Held } from './held.ts';
import { type Deed, type Taken, takenOf, type UndoStack, useUndoStack } from './undoStack.ts';

/** What people agreed to, with the new times they were told; null = nobody was asked. */
export type Yes = readonly PlanFault[] | null;

/** A yes holds for the times that were told alone. */
function consentOf(yes: Yes) {
  const told = (yes ?? []).flatMap(({ jobId, rule, words }) =>
    rule === 'promiseMissed' || rule === 'dropOffMoved'
      ? [{ jobId, rule, newMin: Number(words['newMin']) as EpochMin }]
      : [],
  );
  return yes ? { consent: true, told } : { consent: false };
}

/** What can be taken back, or done again, next. */
export type Back = { readonly deed: Deed; readonly run: () => void };
export type Changes = {
  /** Does with the block what it is held for; the revision of the plan that has it, null when it was refused. */
  readonly make: (held: Held, yes: Yes) => Promise<number | null>;
  readonly swap: (ask: SwapAsk, who: { who: string; other: string }, yes: Yes) => Promise<number | null>;
  /** Moves a block as a way out says, for somebody's car. */
  readonly take: (way: RemedyMove, who: string) => Promise<number | null>;
  readonly undo: Back | null;
  readonly redo: Back | null;
  readonly remember: (deed: Deed, change: PlanChange) => void;
  /** How many changes were made or taken back here so far, and whether the last one was made. */
  readonly last: { readonly count: number; readonly made: boolean };
  readonly refusal: PlainError | null;
  readonly clear: () => void;
};

/** Refusals after which a change can't be taken back any more, whatever is tried. */
const OVER: readonly PlainError['code'][] = ['UNDO_OVERTAKEN', 'NOT_FOUND', 'JOB_STATE'];

/** The commands that change the plan, with what of them is refused. */
function usePlanCommands() {
  const move = useCommand('bays.move');
  const swap = useCommand('bays.swap');
  const split = useCommand('bays.split');
  const resize = useCommand('bays.resize');
  const restore = useCommand('bays.restorePlans');
  const all = [move, swap, split, resize, restore];
  const clear = (): void => {
    for (const command of all) command.clear();
  };
  const refusal = all.find((command) => command.refusal)?.refusal ?? null;
  return { move, swap, split, resize, restore, clear, refusal };
}
type Commands = ReturnType<typeof usePlanCommands>;

/** Does with the block what it is held for. */
function doHeld(by: Commands, planRevision: number, held: Held, yes: Yes) {
  const stage = { planRevision, jobId: held.jobId, stageId: held.piece.stageId };
  if (held.mode === 'resize') return by.resize.run({ ...stage, endMin: held.atMin, ...consentOf(yes) });
  if (held.mode !== 'split') return by.move.run({ ...moveAsk(held), planRevision, ...consentOf(yes) });
  const person = held.personId ? { personId: held.personId } : {};
  return by.split.run({ ...stage, atMin: held.atMin, ...person });
}

/** The changes so far, with the way back and forth among them. */
function useWayBack(by: Commands, seenRevision: number | undefined) {
  const [stack, put] = useUndoStack();
  const [last, setLast] = useState({ count: 0, made: false });
  // The board that is shown may still be the one before this window's own last change.
  const ownRevision = useRef(0);
  const planRevision = Math.max(seenRevision ?? 0, ownRevision.current);
  const went = (change: PlanChange, made: boolean, next: UndoStack): void => {
    ownRevision.current = change.planRevision;
    put(next);
    setLast(({ count }) => ({ count: count + 1, made }));
  };
  const remember = (deed: Deed, change: PlanChange): void =>
    went(change, true, { past: [...stack.past, takenOf(deed, change)], future: [] });
  const goBack = async (from: 'past' | 'future', taken: Taken): Promise<void> => {
    by.clear();
    const to = from === 'past' ? 'future' : 'past';
    const rest = stack[from].slice(0, -1);
    const [plans, left] = [plainPlans(taken.plans), plainPlans(taken.left)];
    const outcome = await by.restore.run({ planRevision, plans, standing: [...taken.standing], left });
    if (outcome.ok)
      went(outcome.value, false, {
        ...stack,
        [from]: rest,
        [to]: [...stack[to], takenOf(taken.deed, outcome.value)],
      });
    else if (OVER.includes(outcome.refusal.code)) put({ ...stack, [from]: rest });
  };
  const backTo = (from: 'past' | 'future'): Back | null => {
    const taken = stack[from].at(-1);
    // Nothing is taken back before the board is known that it is taken back from.
    return taken && seenRevision !== undefined
      ? { deed: taken.deed, run: () => void goBack(from, taken) }
      : null;
  };
  return { planRevision, last, remember, undo: backTo('past'), redo: backTo('future') };
}

/** Changes of the plan as this person makes them in this window, each with what takes it back. */
export function useChanges(seenRevision: number | undefined): Changes {
  const by = usePlanCommands();
  const { planRevision, ...way } = useWayBack(by, seenRevision);
  const kept = async (deed: Deed, change: Promise<Outcome<PlanChange>>): Promise<number | null> => {
    const outcome = await change;
    if (outcome.ok) way.remember(deed, outcome.value);
    return outcome.ok ? outcome.value.planRevision : null;
  };
  return {
    ...way,
    make: (held, yes) => {
      by.clear();
      const { who, mode: kind, piece } = held;
      return kept({ kind, who, stage: piece.kind }, doHeld(by, planRevision, held, yes));
    },
    swap: ({ kind, ...blocks }, who, yes) => {
      by.clear();
      return kept({ kind, ...who }, by.swap.run({ ...blocks, planRevision, ...consentOf(yes) }));
    },
    take: (move, who) => {
      by.clear();
      const ask = { ...move, stageIds: [...move.stageIds], consent: false };
      return kept({ kind: 'block', who }, by.move.run(ask));
    },
    refusal: by.refusal,
    clear: by.clear,
  };
}
