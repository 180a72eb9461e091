import type { BayId, PersonId } from '../ids.ts';
import type { EpochMin, LocalDay, Ppm } from '../units.ts';
import type { BayKind, Skill, StageKind } from '../vocabulary.ts';

export type OpeningHoursView = {
  readonly weekday: number;
  readonly kind: 'shop' | 'desk';
  readonly openMin: number;
  readonly closeMin: number;
};

export type ClosureView = {
  readonly id: string;
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
  readonly bayId: BayId | null;
  readonly reason: string;
};

/** Minutes between a stage and the next of the same car; `mostMin` null = at any time after. */
export type StageGapView = {
  readonly stage: StageKind;
  readonly leastMin: number;
  readonly mostMin: number | null;
};

/** Two bays in each other's dust; both null = every bay. */
export type DustPairView = {
  readonly id: string;
  readonly bayA: BayId | null;
  readonly bayB: BayId | null;
};

export type AbsenceView = {
  readonly id: string;
  readonly personId: PersonId;
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
  readonly reason: string;
};

export type ShiftView = {
  readonly weekday: number;
  readonly startMin: number;
  readonly endMin: number;
};

export type TechnicianView = {
  readonly personId: PersonId;
  readonly name: string;
  readonly skills: readonly Skill[];
  readonly speedPpm: Ppm;
  readonly shifts: readonly ShiftView[];
  /** Their first and last day in the shop, both included; null = they stay. */
  readonly startedDay: LocalDay;
  readonly endedDay: LocalDay | null;
};

/** Everything the shop has set about its bays, hours and people, for the Shop pages. */
export type BaysSetupView = {
  readonly bays: readonly {
    readonly bayId: BayId;
    readonly name: string;
    readonly kind: BayKind;
    readonly capacity: number;
    readonly setupMin: number;
    /** The first and the last day it is there, both included; null = it stays. */
    readonly startedDay: LocalDay;
    readonly endedDay: LocalDay | null;
    readonly revision: number;
  }[];
  readonly hours: readonly OpeningHoursView[];
  readonly technicians: readonly TechnicianView[];
  readonly closures: readonly ClosureView[];
  readonly absences: readonly AbsenceView[];
  readonly gaps: readonly StageGapView[];
  readonly dust: readonly DustPairView[];
};
