import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { UtilizationCell, UtilizationParts } from '#core/shared/views/figures.ts';

export const PARTS = ['attended', 'cure', 'waiting', 'blocked', 'idle'] as const;
export type Part = (typeof PARTS)[number];

/** One bay over some weeks. */
type Week = { readonly name: string; readonly parts: UtilizationParts };
export type BayWeeks = {
  readonly bayId: string;
  readonly name: string;
  readonly weeks: readonly Week[];
  readonly total: UtilizationParts;
};

/** A bay or a technician over the periods. */
export type HeatRow = {
  readonly key: string;
  readonly kind: 'bay' | 'person';
  readonly bayId: BayId | null;
  readonly personId: PersonId | null;
  readonly name: string;
  readonly total: UtilizationParts;
  readonly cells: readonly UtilizationCell[];
};

/** A cell that was opened, with its row. */
export type OpenCell = { readonly row: HeatRow; readonly cell: UtilizationCell };

/** The form of each part: told apart without colour. */
export const FORMS = {
  attended: 'done',
  cure: 'cure',
  waiting: 'waits',
  blocked: 'hatch',
  idle: 'plan',
} as const satisfies Record<Part, string>;

export function minutesOf(parts: UtilizationParts, part: Part): number {
  return parts[`${part}Min`];
}

export function addParts(all: readonly UtilizationParts[]): UtilizationParts {
  const sum = (of: (p: UtilizationParts) => number): number => all.reduce((total, p) => total + of(p), 0);
  return {
    availableMin: sum((p) => p.availableMin),
    attendedMin: sum((p) => p.attendedMin),
    cureMin: sum((p) => p.cureMin),
    waitingMin: sum((p) => p.waitingMin),
    blockedMin: sum((p) => p.blockedMin),
    idleMin: sum((p) => p.idleMin),
  };
}

/** Share of the open minutes with somebody at work or a coat curing; 0 where nothing was open. */
export function busyShare(parts: UtilizationParts): number {
  return parts.availableMin === 0 ? 0 : (parts.attendedMin + parts.cureMin) / parts.availableMin;
}

type Labour = { readonly workedMin: number; readonly unknownMin: number; readonly labourMinor: number };

/**
 * Whether of any hour worked the cost is known: only then the margin is after labour. Of each job the begun minute is
 * left out, so over many the minutes worked may come to less than those of which no cost is known.
 */
export function knowsLabour(sums: Labour): boolean {
  return sums.labourMinor > 0 || sums.unknownMin < sums.workedMin;
}
