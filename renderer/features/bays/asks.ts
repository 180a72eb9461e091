import type { SentFor } from '#core/shared/catalogue.ts';
import type { BlockView } from '#core/shared/views/bays.ts';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import type { Held } from './held.ts';

/** What is held, as the core is asked about it and told to do it. */
export function moveAsk(held: Held | null): SentFor<'bays.checkMove'> {
  return {
    jobId: held?.jobId ?? '',
    stageIds: [...(held?.stageIds ?? [])],
    bayId: held?.bayId ?? '',
    startMin: held?.startMin ?? 0,
    ...(held?.personId ? { personId: held.personId } : {}),
    ...(held?.mode === 'whole' ? { whole: true } : {}),
  };
}

type ChangeAsk = SentFor<'bays.checkChange'>;

export function changeAsk(held: Held | null): ChangeAsk {
  const stage = { jobId: held?.jobId ?? '', stageId: held?.piece.stageId ?? '' };
  if (held?.mode !== 'split') return { kind: 'resize', ...stage, endMin: held?.atMin ?? 0 };
  return {
    kind: 'split',
    ...stage,
    atMin: held.atMin,
    ...(held.personId ? { personId: held.personId } : {}),
  };
}

export type SwapAsk = Extract<ChangeAsk, { kind: 'swap' }>;

export function swapAsk(held: Held | null, target: BlockView | null): SwapAsk {
  const open = target?.pieces.filter((p) => p.state === 'planned') ?? [];
  return {
    kind: 'swap',
    a: { jobId: held?.jobId ?? '', stageIds: [...(held?.stageIds ?? [])] },
    b: { jobId: target?.jobId ?? '', stageIds: [...new Set(open.map((p) => p.stageId))] },
  };
}

/** Plans as commands take them. */
export function plainPlans(plans: readonly JobPlanView[]) {
  return plans.map((p) => ({
    jobId: p.jobId,
    stays: [...p.stays],
    pieces: p.pieces.map((x) => ({ ...x, personIds: [...x.personIds] })),
    ...(p.agreed ? { agreed: p.agreed } : {}),
  }));
}
