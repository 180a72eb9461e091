import { eraseAcceptances } from '../billing/commands/accept.ts';
import { eraseVouchers } from '../billing/commands/vouchers.ts';
import { eraseCustomerInJobs } from '../bookings/commands/car.ts';
import type { WriteCtx } from '../context.ts';
import { forgetInReplies } from '../journal.ts';
import { erasePicturesOf } from '../paint/commands/pictures.ts';
import { eraseConsents } from '../paint/commands/sanding.ts';
import { ERASED_NAME, eraseCustomer as eraseDetails } from '../people/commands.ts';
import type { CustomerId } from '../shared/ids.ts';
import { eraseVehiclesOf } from '../vehicles/commands.ts';
import { partyOf } from '../views/billingParty.ts';

/**
 * Removes a customer's personal details for good: theirs, the marks of the vehicles they keep, their words, names and
 * signatures in jobs and records, who agreed to quotes, their names in replies kept for repeats, and pictures with their
 * files. Kept are issued documents as printed and what was paid, which books need, and the work itself without a name.
 * @throws CUSTOMER_BUSY while a job is open, a document is not settled or money is held; STALE, CUSTOMER_ERASED, NOT_FOUND
 */
export function eraseCustomer(
  ctx: WriteCtx,
  input: { readonly customerId: CustomerId; readonly revision: number },
): null {
  const { name, email, phone } = partyOf(ctx.db, input.customerId);
  eraseDetails(ctx, input);
  eraseVehiclesOf(ctx, input.customerId);
  eraseCustomerInJobs(ctx, input.customerId, ERASED_NAME);
  eraseAcceptances(ctx, input.customerId, ERASED_NAME);
  eraseVouchers(ctx, input.customerId);
  eraseConsents(ctx, input.customerId, ERASED_NAME);
  erasePicturesOf(ctx, input.customerId);
  forgetInReplies(ctx.db, [name, email, phone], ERASED_NAME);
  return null;
}
