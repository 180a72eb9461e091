import { useLayoutEffect, useRef, useState } from 'react';
import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { BlockView, BoardView, PieceView } from '#core/shared/views/bays.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import { swapAsk } from './asks.ts';
import { type Answered, EMPTY, freshOf, type HandStore, handStore } from './hand.ts';
import { afterStart, type Held, type HeldMode, heldFor, liftedFrom, stepped, swapTarget } from './held.ts';
import { isElsewhere } from './landing.ts';
import type { Changes, Yes } from './useChanges.ts';

/** Lifting, holding and dropping blocks: the same functions as long as the board is shown. */
export type Hands = HandStore & {
  readonly lift: (block: BlockView, mode?: HeldMode) => void;
  readonly turn: (mode: HeldMode) => void;
  readonly hold: (bayId: BayId, startMin: number, personId?: PersonId | null) => void;
  /** Holds the cut, or the end, at a minute of a piece. */
  readonly mark: (atMin: number, piece?: PieceView | null, personId?: PersonId | null) => void;
  readonly step: (quarters: number, rows: number) => void;
  /** Does it as soon as the core has said yes to the block as it is held; a drop that nobody was asked about first waits. */
  readonly drop: (consent?: boolean) => void;
  readonly swap: (consent?: boolean) => void;
  readonly putBack: () => void;
  /** What the core says; a drop that waited for it is decided. */
  readonly answered: (answer: Answered) => void;
  /** What was answered to it is asked again; a drop waits for that. */
  readonly askedAgain: (to: Held) => void;
  /** Takes back a drop that waits for an answer; false where none does. */
  readonly callBack: () => boolean;
  /** The board is shown as of a revision: what was dropped before that lies where it is drawn. */
  readonly boardCame: (planRevision: number) => void;
};
/** The board that is shown and the changes made at it, as they are now. */
type Now = { readonly current: { readonly board: BoardView | undefined; readonly changes: Changes } };

export function useHands(board: BoardView | undefined, changes: Changes): Hands {
  const now = useRef({ board, changes });
  now.current = { board, changes };
  const [hands] = useState(() => handsOver(now));
  const revision = board?.planRevision ?? 0;
  // Before it is painted: the outline goes in the same frame in which the block is drawn there.
  useLayoutEffect(() => hands.boardCame(revision), [hands, revision]);
  return hands;
}

export function handsOver(now: Now): Hands {
  const store = handStore();
  return { ...store, ...holding(store, now), ...dropping(store, now) };
}

function holding(store: HandStore, now: Now): Pick<Hands, 'lift' | 'turn' | 'hold' | 'mark' | 'step'> {
  // What was refused at the place before says nothing of the next one. What is being written is held where it is.
  const holdAs = (next: (held: Held) => Held): void => {
    const { lifted, dropped } = store.get();
    if (!lifted || dropped === 'sent' || (typeof dropped === 'object' && dropped)) return;
    const held = next(lifted);
    if (held === lifted) return;
    if (now.current.changes.refusal) now.current.changes.clear();
    store.put({ lifted: held, dropped: null, stayed: null });
  };
  return {
    lift: (block, mode = 'block') => {
      if (store.get().dropped === 'sent') return;
      const held = liftedFrom(block);
      store.put({ ...EMPTY, lifted: held && mode !== 'block' ? heldFor(held, mode) : held });
    },
    turn: (mode) => holdAs((l) => heldFor(l, mode)),
    hold: (bayId, startMin, personId = null) =>
      holdAs((l) =>
        l.bayId === bayId && l.startMin === startMin && l.personId === personId
          ? l
          : { ...l, bayId, startMin: startMin as EpochMin, personId },
      ),
    mark: (at, piece, personId) =>
      holdAs((l) => {
        const next = {
          atMin: afterStart(piece ?? l.piece, at),
          piece: piece ?? l.piece,
          personId: personId === undefined ? l.personId : personId,
        };
        const same = l.atMin === next.atMin && l.piece === next.piece && l.personId === next.personId;
        return same ? l : { ...l, ...next };
      }),
    step: (quarters, rows) =>
      holdAs((l) => (now.current.board ? stepped(now.current.board, l, quarters, rows) : l)),
  };
}

/** What people said yes to, where somebody asked them. */
const yesTo = (consent: boolean, asks: readonly PlanFault[] = []): Yes => (consent ? asks : null);

/** Holds what was dropped where it is until the file has it, or has refused it. */
function sending(store: HandStore, now: Now): (held: Held, change: Promise<number | null>) => Promise<void> {
  return async (held, change) => {
    store.put({ dropped: 'sent', stayed: null });
    const planRevision = await change;
    if (store.get().lifted !== held) return;
    if (planRevision === null) store.put({ dropped: null });
    else if ((now.current.board?.planRevision ?? 0) >= planRevision) store.put(EMPTY);
    else store.put({ dropped: { planRevision } });
  };
}

function dropping(
  store: HandStore,
  now: Now,
): Pick<Hands, 'drop' | 'swap' | 'putBack' | 'answered' | 'askedAgain' | 'callBack' | 'boardCame'> {
  const send = sending(store, now);
  const decide = (answer: Answered, consent: boolean, seen: boolean): void => {
    const { to, check } = answer;
    if (!check?.ok || (check.needsConsent.length > 0 && !consent)) store.put({ stayed: 'no' });
    else if (!seen && isElsewhere(to, check)) store.put({ stayed: 'elsewhere' });
    else void send(to, now.current.changes.make(to, yesTo(consent, check.needsConsent)));
  };
  return {
    drop: (consent = false) => {
      const { lifted, dropped } = store.get();
      if (!lifted || dropped) return;
      const answer = freshOf(store.get());
      if (answer) decide(answer, consent, true);
      else store.put({ dropped: 'waits' });
    },
    swap: (consent = false) => {
      const { board, changes } = now.current;
      const answer = freshOf(store.get());
      const target = board && answer?.swapWith ? swapTarget(board, answer.to) : null;
      if (!answer || !target || store.get().dropped) return;
      const names = { who: answer.to.who, other: target.who };
      void send(
        answer.to,
        changes.swap(swapAsk(answer.to, target), names, yesTo(consent, answer.swapWith?.asks)),
      );
    },
    putBack: () => {
      if (store.get().dropped === 'sent') return;
      if (store.get().lifted) store.put(EMPTY);
      now.current.changes.clear();
    },
    answered: (answer) => {
      const waited = store.get().dropped === 'waits' && answer.to === store.get().lifted;
      store.put(waited ? { answer, dropped: null } : { answer });
      if (waited) decide(answer, false, false);
    },
    askedAgain: (to) => {
      const { answer } = store.get();
      if (answer?.to === to && answer.again !== true) store.put({ answer: { ...answer, again: true } });
    },
    callBack: () => {
      if (store.get().dropped !== 'waits') return false;
      store.put(EMPTY);
      return true;
    },
    boardCame: (planRevision) => {
      const { dropped } = store.get();
      if (dropped !== null && typeof dropped === 'object' && planRevision >= dropped.planRevision)
        store.put(EMPTY);
    },
  };
}
