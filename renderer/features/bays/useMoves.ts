import { useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { BlockView, BoardView, JobPlanView, MoveCheck } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';

/** A block lifted off the board and where it is held now. */
export type Lifted = {
  readonly jobId: JobId;
  readonly who: string;
  readonly stageIds: readonly StageId[];
  readonly from: BlockView;
  readonly bayId: BayId;
  readonly startMin: EpochMin;
  readonly lengthMin: number;
  /** Somebody who is to do it instead; null leaves whoever does it now. */
  readonly personId: PersonId | null;
};
export type Moves = {
  readonly lifted: Lifted | null;
  readonly check: MoveCheck | null;
  readonly refusal: PlainError | null;
  readonly lift: (block: BlockView) => void;
  readonly hold: (bayId: BayId, startMin: number, personId?: PersonId | null) => void;
  readonly step: (quarters: number, lanes: number) => void;
  readonly drop: (consent?: boolean) => Promise<void>;
  readonly putBack: () => void;
  readonly undo: (() => void) | null;
  readonly redo: (() => void) | null;
  readonly remember: (undo: readonly JobPlanView[]) => void;
};

/** Blocks move by quarters of an hour from where they were. */
export const QUARTER = 15;

/** Lifting, holding and dropping blocks, checked by the core at every step, with undo and redo. */
export function useMoves(board: BoardView | undefined): Moves {
  const [lifted, setLifted] = useState<Lifted | null>(null);
  const [past, setPast] = useState<readonly (readonly JobPlanView[])[]>([]);
  const [future, setFuture] = useState<readonly (readonly JobPlanView[])[]>([]);
  const move = useCommand('bays.move');
  const restore = useCommand('bays.restorePlans');
  const ask = {
    jobId: lifted?.jobId ?? '',
    stageIds: [...(lifted?.stageIds ?? [])],
    bayId: lifted?.bayId ?? '',
    startMin: lifted?.startMin ?? 0,
    ...(lifted?.personId ? { personId: lifted.personId } : {}),
  };
  const check = useQuery('bays.checkMove', ask, { when: lifted !== null, keep: true });
  const planRevision = board?.planRevision ?? 1;

  const hold = (bayId: BayId, startMin: number, personId: PersonId | null = null): void => {
    setLifted((l) => l && { ...l, bayId, startMin: startMin as EpochMin, personId });
  };
  const drop = async (consent = false): Promise<void> => {
    if (!lifted) return;
    const outcome = await move.run({ ...ask, planRevision, consent });
    if (!outcome.ok) return;
    setPast([...past, outcome.value.undo]);
    setFuture([]);
    setLifted(null);
  };
  const goBack = async (plans: readonly JobPlanView[], back: boolean): Promise<void> => {
    const outcome = await restore.run({ planRevision, plans: plainPlans(plans) });
    if (!outcome.ok) return;
    setPast(back ? past.slice(0, -1) : [...past, outcome.value.undo]);
    setFuture(back ? [...future, outcome.value.undo] : future.slice(0, -1));
  };
  const [last, next] = [past.at(-1), future.at(-1)];
  return {
    lifted,
    check: lifted ? (check.data ?? null) : null,
    refusal: move.refusal ?? restore.refusal ?? (lifted ? check.error : null),
    lift: (block) => setLifted(liftedFrom(block)),
    hold,
    step: (quarters, lanes) => {
      if (!lifted || !board) return;
      const row = rowBeside(board, lifted, lanes);
      hold(row.bayId, steppedTo(board, lifted, quarters), row.personId);
    },
    drop,
    putBack: () => {
      setLifted(null);
      move.clear();
    },
    undo: last ? () => void goBack(last, true) : null,
    redo: next ? () => void goBack(next, false) : null,
    remember: (undo) => setPast([...past, undo]),
  };
}

export function plainPlans(plans: readonly JobPlanView[]) {
  return plans.map((p) => ({
    jobId: p.jobId,
    stays: [...p.stays],
    pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
    ...(p.agreed ? { agreed: p.agreed } : {}),
  }));
}

function liftedFrom(block: BlockView): Lifted | null {
  const open = block.pieces.filter((p) => p.state === 'planned');
  const [first, last] = [open[0], open.at(-1)];
  if (!first || !last) return null;
  return {
    jobId: block.jobId,
    who: block.who,
    stageIds: open.map((p) => p.stageId),
    from: block,
    bayId: block.bayId,
    startMin: first.startMin,
    lengthMin: last.dwellEndMin - first.startMin,
    personId: null,
  };
}

type Row = { readonly bayId: BayId; readonly personId: PersonId | null };

/** The row above or below: the bays, the yard, and then the people, who take the work where it is. */
function rowBeside(board: BoardView, lifted: Lifted, rows: number): Row {
  const { bayId, personId } = lifted;
  const all: readonly Row[] = [
    ...board.lanes.map((l) => ({ bayId: l.bayId, personId: null })),
    ...board.people.map((p) => ({ bayId: personId ? bayId : lifted.from.bayId, personId: p.personId })),
  ];
  const at = all.findIndex((r) => (personId ? r.personId === personId : r.bayId === bayId));
  return all[Math.min(all.length - 1, Math.max(0, at + rows))] ?? { bayId, personId };
}

/** A quarter of an hour on, jumping over closed hours. */
function steppedTo(board: BoardView, lifted: Lifted, quarters: number): number {
  const to = lifted.startMin + quarters * QUARTER;
  if (quarters === 0 || board.open.some((o) => o.startMin <= to && to < o.endMin)) return to;
  if (quarters > 0) return board.open.find((o) => o.startMin >= to)?.startMin ?? to;
  return (board.open.findLast((o) => o.endMin <= to)?.endMin ?? to + QUARTER) - QUARTER;
}
