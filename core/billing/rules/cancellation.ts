import { refuse } from '#core/shared/errors.ts';
import type { Minor } from '#core/shared/units.ts';

export const DEPOSIT_OUTCOMES = ['kept', 'returned', 'moved'] as const;
/** What becomes of the deposit of a job that will not be done. */
export type DepositOutcome = (typeof DEPOSIT_OUTCOMES)[number];

export type Settlement = {
  /** Charged as a fee. */
  readonly feeMinor: Minor;
  /** Part of the fee that the deposit covers. */
  readonly coveredMinor: Minor;
  readonly returnMinor: Minor;
  readonly moveMinor: Minor;
};

/**
 * How a held deposit and a fee end. `kept`: the deposit covers the fee, what is above goes back; without a stated
 * fee the whole deposit is the fee. `returned` and `moved`: the deposit less the fee goes back or to another job.
 * Whether a deposit may be kept is a matter of the contract and local law.
 * @throws NO_DEPOSIT_HELD when nothing is held and no fee is asked
 */
export function settle(heldMinor: Minor, outcome: DepositOutcome, feeMinor: Minor | null): Settlement {
  const fee = feeMinor ?? (outcome === 'kept' ? heldMinor : (0 as Minor));
  if (heldMinor === 0 && fee === 0) refuse('NO_DEPOSIT_HELD', {});
  const covered = Math.min(fee, heldMinor) as Minor;
  const rest = (heldMinor - covered) as Minor;
  return {
    feeMinor: fee,
    coveredMinor: covered,
    returnMinor: outcome === 'moved' ? (0 as Minor) : rest,
    moveMinor: outcome === 'moved' ? rest : (0 as Minor),
  };
}
