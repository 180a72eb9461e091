import type { Level } from '../../shared/vocabulary.ts';

/** A named person's decision to go beyond a rule, with the reason that stands on the quote. */
export type Override = { readonly person: string; readonly reason: string };

export type PermitCase = {
  readonly level: Level;
  readonly plannedTenthUm: number;
  /** Most this job may take; null where film is not known. */
  readonly safeTenthUm: number | null;
  readonly thin: boolean;
  readonly override: Override | null;
};

export type Refusal = 'thin' | 'belowFloor';

/**
 * Whether a panel may be taken to a level: no machine works on a thin panel, and no plan goes below the shop's floor
 * or past the life budget, without a named person's override. Null = allowed.
 */
export function levelRefusal(c: PermitCase): Refusal | null {
  if (c.override !== null || c.level === 'leave' || c.level === 'washOnly') return null;
  if (c.thin) return 'thin';
  if (c.safeTenthUm !== null && c.plannedTenthUm > c.safeTenthUm) return 'belowFloor';
  return null;
}
