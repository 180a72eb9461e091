import { useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobPlanView, PlanChange } from '#core/shared/views/bays.ts';
import { type Outcome, useCommand } from '../../bridge/commands.ts';
import { moveAsk, plainPlans, type SwapAsk } from './asks.ts';
import type { Held } from './held.ts';

export type Changes = {
  /** Does with the block what it is held for; false when it was refused. */
  readonly make: (held: Held, consent: boolean) => Promise<boolean>;
  readonly swap: (ask: SwapAsk, consent: boolean) => Promise<boolean>;
  readonly undo: (() => void) | null;
  readonly redo: (() => void) | null;
  readonly remember: (undo: readonly JobPlanView[]) => void;
  readonly refusal: PlainError | null;
  readonly clear: () => void;
};
type Plans = readonly JobPlanView[];

/** Changes of the plan as this window makes them, each with what takes it back. */
export function useChanges(seenRevision: number): Changes {
  const [past, setPast] = useState<readonly Plans[]>([]);
  const [future, setFuture] = useState<readonly Plans[]>([]);
  // The board that is shown may still be the one before this window's own last change.
  const [ownRevision, setOwn] = useState(0);
  const planRevision = Math.max(seenRevision, ownRevision);
  const move = useCommand('bays.move');
  const swap = useCommand('bays.swap');
  const split = useCommand('bays.split');
  const resize = useCommand('bays.resize');
  const restore = useCommand('bays.restorePlans');
  const all = [move, swap, split, resize, restore];
  const clear = (): void => {
    for (const command of all) command.clear();
  };
  const remember = (undo: Plans): void => {
    setPast([...past, undo]);
    setFuture([]);
  };
  const kept = async (change: Promise<Outcome<PlanChange>>): Promise<boolean> => {
    const outcome = await change;
    if (!outcome.ok) return false;
    setOwn(outcome.value.planRevision);
    remember(outcome.value.undo);
    return true;
  };
  const goBack = async (plans: Plans, back: boolean): Promise<void> => {
    const outcome = await restore.run({ planRevision, plans: plainPlans(plans) });
    if (!outcome.ok) return;
    setOwn(outcome.value.planRevision);
    setPast(back ? past.slice(0, -1) : [...past, outcome.value.undo]);
    setFuture(back ? [...future, outcome.value.undo] : future.slice(0, -1));
  };
  const [last, next] = [past.at(-1), future.at(-1)];
  return {
    make: (held, consent) => {
      clear();
      const stage = { planRevision, jobId: held.jobId, stageId: held.piece.stageId };
      if (held.mode === 'resize') return kept(resize.run({ ...stage, endMin: held.atMin, consent }));
      if (held.mode !== 'split') return kept(move.run({ ...moveAsk(held), planRevision, consent }));
      const person = held.personId ? { personId: held.personId } : {};
      return kept(split.run({ ...stage, atMin: held.atMin, ...person }));
    },
    swap: ({ kind: _, ...blocks }, consent) => {
      clear();
      return kept(swap.run({ ...blocks, planRevision, consent }));
    },
    undo: last ? () => void goBack(last, true) : null,
    redo: next ? () => void goBack(next, false) : null,
    remember,
    refusal: all.find((command) => command.refusal)?.refusal ?? null,
    clear,
  };
}
