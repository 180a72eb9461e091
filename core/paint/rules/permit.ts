import type { ConsentWay } from '../../shared/consent.ts';
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

export type Refusal = 'thin' | 'belowFloor' | 'filmUnknown' | 'notAgreed' | 'nothingToSand';

/** The owner's word that a panel may be wet sanded, and down to what depth at most (0.1 µm). */
export type SandingConsent = {
  readonly name: string;
  readonly way: ConsentWay;
  readonly atMs: number;
  readonly upToTenthUm: number;
};

export type SandingCase = {
  /** Most that the sanding alone may take to reach the damage; null where there is none that asks for it. */
  readonly sandTenthUm: number | null;
  /** The sanding and the polishing after it. */
  readonly plannedTenthUm: number;
  /** Most this job may take from a panel that is sanded; null where film is not known. */
  readonly limitTenthUm: number | null;
  readonly thin: boolean;
  readonly consent: SandingConsent | null;
  readonly override: Override | null;
};

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

/**
 * Whether a panel may be wet sanded. What is sanded off never comes back, so the owner's own consent comes first and
 * nobody's override stands in for it; then film has to be known and reach for the sanding and the polishing after it,
 * unless a named person takes that on. Null = allowed.
 */
export function sandingRefusal(c: SandingCase): Refusal | null {
  if (c.sandTenthUm === null) return 'nothingToSand';
  if (c.consent === null || c.consent.upToTenthUm < c.sandTenthUm) return 'notAgreed';
  if (c.override !== null) return null;
  if (c.thin) return 'thin';
  if (c.limitTenthUm === null) return 'filmUnknown';
  return c.plannedTenthUm > c.limitTenthUm ? 'belowFloor' : null;
}
