import type { PlanFault, PlanRule } from '#core/shared/views/plan.ts';
import type { StandingFault } from '#core/shared/views/planChange.ts';
import type { Board, JobPlan } from './model.ts';
import { faultsOfJob } from './validate.ts';

/** What cannot stand beside the other plans; all else of a plan that is put back is as it was agreed. */
export const STANDS_BESIDE: readonly PlanRule[] = [
  'bayTaken',
  'yardFull',
  'noRoomToPass',
  'bayClosed',
  'personBusy',
  'noPlace',
];

/** The faults that plans would have, put on the board together, by which they cannot stand beside the others. */
export function standingFaults(board: Board, plans: readonly JobPlan[]): readonly StandingFault[] {
  const merged = { ...board, plans: new Map(board.plans) };
  for (const plan of plans) merged.plans.set(plan.jobId, plan);
  return plans.flatMap((plan) => {
    const job = board.jobs.get(plan.jobId);
    const faults = job ? faultsOfJob(merged, job, plan) : [];
    return faults.filter((f) => STANDS_BESIDE.includes(f.rule)).map(standingOf);
  });
}

/** Whether a fault is one of those: the same rule, of the same car, in the same place, with the same others. */
export function isStanding(fault: PlanFault, standing: readonly StandingFault[]): boolean {
  const own = standingOf(fault);
  return standing.some(
    (s) =>
      s.rule === own.rule &&
      s.jobId === own.jobId &&
      s.bayId === own.bayId &&
      s.personId === own.personId &&
      s.other === own.other,
  );
}

function standingOf({ rule, jobId, bayId, personId, words }: PlanFault): StandingFault {
  return { rule, jobId, bayId, personId, other: String(words['other'] ?? '') };
}
