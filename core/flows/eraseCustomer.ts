import { eraseCustomerInRecords } from '../bookings/commands/car.ts';
import type { WriteCtx } from '../context.ts';
import { eraseCustomer as eraseDetails } from '../people/commands.ts';
import type { CustomerId } from '../shared/ids.ts';

/**
 * Removes a customer's personal details, also who agreed, the signature and the belongings in the records of their
 * cars. Issued papers keep what the law wants kept on them.
 * @throws CUSTOMER_BUSY while a job is open or money is owed; STALE, CUSTOMER_ERASED, NOT_FOUND
 */
export function eraseCustomer(
  ctx: WriteCtx,
  input: { readonly customerId: CustomerId; readonly revision: number },
): null {
  eraseDetails(ctx, input);
  eraseCustomerInRecords(ctx, input.customerId, '–');
  return null;
}
