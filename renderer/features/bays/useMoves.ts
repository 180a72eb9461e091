import { useEffect, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type {
  BlockView,
  BoardView,
  ChangeCheck,
  MoveCheck,
  PieceView,
  PlanFault,
} from '#core/shared/views/bays.ts';
import { useQuery } from '../../bridge/queries.ts';
import { changeAsk, moveAsk, swapAsk } from './asks.ts';
import { afterStart, type Held, type HeldMode, heldFor, liftedFrom, stepped, swapTarget } from './held.ts';
import { type Changes, useChanges } from './useChanges.ts';

export type Moves = {
  readonly lifted: Held | null;
  /** What the core says to the block where it is held; null while it is asked. */
  readonly check: MoveCheck | ChangeCheck | null;
  /** The car that the block may be swapped with, where that breaks no rule, and what its people must agree to. */
  readonly swapWith: { readonly who: string; readonly asks: readonly PlanFault[] } | null;
  readonly refusal: PlainError | null;
  readonly lift: (block: BlockView, mode?: HeldMode) => void;
  readonly turn: (mode: HeldMode) => void;
  readonly hold: (bayId: BayId, startMin: number, personId?: PersonId | null) => void;
  /** Holds the cut, or the end, at a minute of a piece. */
  readonly mark: (atMin: number, piece?: PieceView | null, personId?: PersonId | null) => void;
  readonly step: (quarters: number, rows: number) => void;
  readonly drop: (consent?: boolean) => Promise<void>;
  readonly swap: (consent?: boolean) => Promise<void>;
  readonly putBack: () => void;
} & Pick<Changes, 'take' | 'undo' | 'redo' | 'remember' | 'last'>;

/** Lifting, holding and dropping blocks, checked by the core at every step, with undo and redo. */
export function useMoves(board: BoardView | undefined): Moves {
  const [lifted, setLifted] = useState<Held | null>(null);
  const changes = useChanges(board?.planRevision ?? 1);
  const { check, error } = useCheck(lifted);
  const target = board && lifted && check?.ok === false ? swapTarget(board, lifted) : null;
  const swapping = useQuery('bays.checkChange', swapAsk(lifted, target), { when: target !== null });
  const putBack = (): void => {
    setLifted(null);
    changes.clear();
  };
  // What was refused at the place before says nothing of the next one.
  const holdAs = (next: (held: Held) => Held): void => {
    changes.clear();
    setLifted((l) => l && next(l));
  };
  const doneWith = async (change: Promise<boolean>): Promise<void> => {
    if (await change) setLifted(null);
  };
  return {
    lifted,
    check,
    swapWith: target && swapping.data?.ok ? { who: target.who, asks: swapping.data.needsConsent } : null,
    refusal: changes.refusal ?? error,
    lift: (block, mode = 'block') => {
      const held = liftedFrom(block);
      setLifted(held && mode !== 'block' ? heldFor(held, mode) : held);
    },
    turn: (mode) => holdAs((l) => heldFor(l, mode)),
    hold: (bayId, startMin, personId = null) =>
      holdAs((l) =>
        l.bayId === bayId && l.startMin === startMin && l.personId === personId
          ? l
          : { ...l, bayId, startMin: startMin as EpochMin, personId },
      ),
    mark: (atMin, piece, personId) =>
      holdAs((l) => ({
        ...l,
        atMin: afterStart(piece ?? l.piece, atMin),
        piece: piece ?? l.piece,
        personId: personId === undefined ? l.personId : personId,
      })),
    step: (quarters, rows) => holdAs((l) => (board ? stepped(board, l, quarters, rows) : l)),
    drop: async (consent = false) => (lifted ? doneWith(changes.make(lifted, consent)) : undefined),
    swap: async (consent = false) =>
      lifted && target
        ? doneWith(changes.swap(swapAsk(lifted, target), { who: lifted.who, other: target.who }, consent))
        : undefined,
    putBack,
    take: changes.take,
    undo: changes.undo,
    redo: changes.redo,
    remember: changes.remember,
    last: changes.last,
  };
}

/** A hand that stays over one place for so long asks about it; what it only passes is not asked about. */
const REST_MS = 120;

function useRested<T>(value: T): T {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setRested(value), REST_MS);
    return () => clearTimeout(timer);
  }, [value]);
  return rested;
}

/** Asks the core about the block where it is held. */
function useCheck(held: Held | null): {
  readonly check: MoveCheck | ChangeCheck | null;
  readonly error: PlainError | null;
} {
  const rested = useRested(held);
  const moving = rested?.mode === 'block' || rested?.mode === 'whole';
  const move = useQuery('bays.checkMove', moveAsk(rested), { when: moving, keep: true });
  const change = useQuery('bays.checkChange', changeAsk(rested), {
    when: rested !== null && !moving,
    keep: true,
  });
  if (!held || held.mode !== rested?.mode) return { check: null, error: null };
  const asked = moving ? move : change;
  return { check: checkShown(asked.data, held === rested && !asked.asking), error: asked.error };
}

/**
 * What is shown of an answer. One to the place before stays while it is a yes, so that a drag does not flicker; but what it
 * said has to be agreed says nothing of this place, and a no says nothing at all.
 */
export function checkShown<T extends MoveCheck | ChangeCheck>(
  answer: T | undefined,
  isFresh: boolean,
): T | null {
  if (!answer || isFresh) return answer ?? null;
  return answer.ok ? { ...answer, needsConsent: [] } : null;
}
