import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import type { BayKind, Skill, StageKind, StageState } from '#core/shared/vocabulary.ts';
import type { Calendar, Span } from './calendar.ts';

/** The board as the rules see it: plain data in whole minutes since the epoch, spans half-open. */

/** A bay, or the yard, whose capacity counts cars. It exists until `endsMin`; nobody can stand in it while closed. */
export type Place = {
  readonly id: BayId;
  readonly name: string;
  readonly kind: BayKind;
  readonly capacity: number;
  /** Minutes after arriving before work can start here, on top of the move. */
  readonly setupMin: number;
  /** Bays near enough for dust: nobody cuts in one of the two while a coating is fresh in the other. */
  readonly dustWith: readonly BayId[];
  readonly closed: readonly Span[];
  readonly endsMin: number;
};

/** `hours` are shifts within the shop's opening, less absences. Speed 1 000 000 = the estimate's pace. */
export type Technician = {
  readonly id: PersonId;
  readonly name: string;
  readonly skills: readonly Skill[];
  readonly speedPpm: number;
  readonly hours: Calendar;
};

/** Least that begun work is still expected to take, and a ready car to stand, minutes. Common practice, no source. */
export const LEAST_LEFT_MIN = 15;

/** One stage still to be placed. Labour is P50 minutes at normal speed; `mu`, `sigma` are of log minutes. */
export type StageSpec = {
  readonly id: StageId;
  readonly kind: StageKind;
  readonly state: StageState;
  readonly labourMin: number;
  /** Already worked, at normal pace, when the stage is running or paused. */
  readonly workedMin: number;
  /** Unattended after the labour; of a stage that nobody attends and that runs, what is left of it. */
  readonly dwellMin: number;
  /** From its end, dwell included, to the start of the next stage: at least so long, and at most (null = any time). */
  readonly leastGapMin: number;
  readonly mostGapMin: number | null;
  readonly bayKinds: readonly BayKind[];
  readonly skill: Skill;
  readonly crew: number;
  readonly splittable: boolean;
  readonly mu: number;
  readonly sigma: number;
};

/** Where a job's way over the board begins: not agreed yet, an agreed drop-off, standing in a place now; or it is over. */
export type StartRule =
  | { readonly kind: 'free'; readonly notBeforeMin: number }
  | { readonly kind: 'agreed'; readonly dropOffMin: number }
  | { readonly kind: 'here'; readonly bayId: BayId; readonly fromMin: number }
  | { readonly kind: 'over' };

export type JobSpec = {
  readonly id: JobId;
  readonly number: number;
  readonly who: string;
  readonly start: StartRule;
  /** Every stage of the job in order, also those done. */
  readonly stages: readonly StageSpec[];
  readonly promiseMin: number | null;
  /** Minutes that a minute late counts for: 1 is usual. */
  readonly lateWeight: number;
  readonly confirmed: boolean;
  /** Scatter of log minutes that all stages of the job share: a hard car is hard throughout. */
  readonly jobSigma: number;
};

/** The shared scatter of a job that no estimate was learned for. Common practice, no source. */
export const USUAL_JOB_SIGMA = 0.15;

/** A vehicle in a place from arriving to leaving, nights and waiting included. */
export type Stay = { readonly bayId: BayId; readonly arriveMin: number; readonly leaveMin: number };

/** Work on a stage: technicians are held `[startMin, endMin)`, the place until `dwellEndMin`. */
export type Piece = {
  readonly stageId: StageId;
  readonly bayId: BayId;
  readonly personIds: readonly PersonId[];
  readonly startMin: number;
  readonly endMin: number;
  readonly dwellEndMin: number;
};
export type JobPlan = {
  readonly jobId: JobId;
  readonly stays: readonly Stay[];
  readonly pieces: readonly Piece[];
};

export type Board = {
  readonly nowMin: number;
  /** Nothing is planned beyond this. */
  readonly horizonMin: number;
  readonly open: Calendar;
  /** Instants at which cars are handed over, rising. */
  readonly slots: readonly number[];
  readonly desk: Calendar;
  readonly moveMin: number;
  readonly places: readonly Place[];
  readonly technicians: readonly Technician[];
  readonly jobs: ReadonlyMap<JobId, JobSpec>;
  readonly plans: ReadonlyMap<JobId, JobPlan>;
};

/** When the last stage of a plan is over; −Infinity for an empty plan. */
export function finishOf(plan: JobPlan): number {
  return plan.pieces.reduce((latest, p) => Math.max(latest, p.dwellEndMin), Number.NEGATIVE_INFINITY);
}

/** Minutes from being driven over to work in a place. */
export function arrivalMin(board: Board, bayId: BayId): number {
  return board.moveMin + (board.places.find((p) => p.id === bayId)?.setupMin ?? 0);
}

/** Labour minutes of a stage at a technician's pace, rounded up. Crews work at the mean pace. */
export function labourAt(stage: StageSpec, speedsPpm: readonly number[]): number {
  if (speedsPpm.length === 0) return 0;
  const mean = speedsPpm.reduce((a, b) => a + b, 0) / speedsPpm.length;
  return Math.ceil((stage.labourMin * 1_000_000) / mean);
}

/** A stage that nobody attends: its minutes run on by themselves, as a dwell. */
export function unattendedMin(stage: StageSpec): number {
  return stage.crew === 0 ? stage.labourMin + stage.dwellMin : stage.dwellMin;
}

export function isOpenStage(stage: StageSpec): boolean {
  return stage.state === 'planned' || stage.state === 'inWork' || stage.state === 'paused';
}
