import { refuse } from '../../shared/errors.ts';
import type { EpochMs } from '../../shared/units.ts';

const LONGEST_WAIT_SEC = 3600;
const PIN = /^\d{4,12}$/u;

export type TryRules = { readonly pinTries: number; readonly pinWaitSec: number };

/**
 * How long the next try has to wait after this many wrong PINs in a row: nothing up to the allowed tries, then the
 * first wait, twice as long each further time, never above an hour.
 */
export function waitAfter(wrong: number, rules: TryRules): number {
  if (wrong < rules.pinTries) return 0;
  return Math.min(LONGEST_WAIT_SEC, rules.pinWaitSec * 2 ** Math.min(20, wrong - rules.pinTries));
}

/** Seconds still to wait; never more than an hour, whatever a clock that was set back says. */
export function secondsLeft(waitMs: EpochMs, now: EpochMs): number {
  return Math.min(LONGEST_WAIT_SEC, Math.max(0, Math.ceil((waitMs - now) / 1000)));
}

/** @throws PIN_SHAPE when it is not 4 to 12 digits */
export function checkPinShape(pin: string): void {
  if (!PIN.test(pin)) refuse('PIN_SHAPE', {});
}
