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

/**
 * Seconds still to wait. More than the longest wait means that the clock was set back since: then there is none, or a
 * shop with one owner would stay shut until the clock has caught up.
 */
export function secondsLeft(waitMs: EpochMs, now: EpochMs): number {
  const left = Math.ceil((waitMs - now) / 1000);
  return left > LONGEST_WAIT_SEC ? 0 : Math.max(0, left);
}

/** @throws PIN_SHAPE when it is not 4 to 12 digits */
export function checkPinShape(pin: string): void {
  if (!PIN.test(pin)) refuse('PIN_SHAPE', {});
}
