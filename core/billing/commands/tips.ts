import type { WriteCtx } from '../../context.ts';
import { nextNumber } from '../../db/sequence.ts';
import type { PersonId } from '../../shared/ids.ts';
import type { Minor } from '../../shared/units.ts';
import type { PaymentWay } from '../../shared/views/billing.ts';
import { knownPerson } from '../../views/known.ts';
import { heldTips } from '../store/payments.ts';
import { giveBack } from './payments.ts';

/**
 * Pays tips out to whom they were given, the oldest first; null = those that everybody shares. They are no revenue of
 * the shop, and what they mean for somebody's wage and tax is local law.
 * @throws REFUND_ABOVE_PAID when less is held · CASH_NOT_ROUND · NOT_FOUND
 */
export function payTips(
  ctx: WriteCtx,
  input: {
    readonly personId: PersonId | null;
    readonly amountMinor: Minor;
    readonly way: Exclude<PaymentWay, 'account'>;
    readonly note: string;
  },
): { readonly receipt: number } {
  const personId = knownPerson(ctx.db, input.personId);
  const { amountMinor, way, note } = input;
  const receipt = nextNumber(ctx.db, 'receipt');
  if (personId) ctx.changed(personId, 'tips');
  giveBack(ctx, heldTips(ctx.db, personId), amountMinor, { way, receipt, jobId: null, note });
  return { receipt };
}
