import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId } from '../shared/ids.ts';
import { openBusiness } from '../views/customerPage.ts';
import { type CustomerFields, cleanCustomer } from './rules/customer.ts';
import { type CustomerRow, customerRow, insertCustomer, updateCustomer } from './store.ts';

/** Stands where a name was. */
export const ERASED_NAME = '–';
const NOTHING_KEPT = {
  ...{ name: ERASED_NAME, nameKey: '', phone: '', phoneKey: '', email: '' },
  ...{ address: '', country: '', taxNumber: '', language: '' as const, note: '' },
};

/** Adds a customer; a name is enough. @throws NAME_MISSING, NAME_TOO_LONG, EMAIL_UNREADABLE */
export function addCustomer(
  ctx: WriteCtx,
  input: CustomerFields & { readonly name: string },
): { readonly id: CustomerId } {
  const id = ctx.newId<CustomerId>();
  const said = cleanCustomer({ phone: '', ...input });
  insertCustomer(ctx.db, {
    ...{
      kind: 'person',
      email: '',
      address: '',
      country: '',
      taxNumber: '',
      language: '' as const,
      note: '',
    },
    ...{ name: '', phone: '', phoneKey: '' },
    ...said,
    id,
    createdMs: ctx.now,
  });
  ctx.changed(id, ...Object.keys(said));
  return { id };
}

/** Changes what is known of a customer. @throws STALE, CUSTOMER_ERASED, NOT_FOUND and those of addCustomer */
export function changeCustomer(
  ctx: WriteCtx,
  input: CustomerFields & { readonly customerId: CustomerId; readonly revision: number },
): null {
  const { customerId, revision, ...fields } = input;
  keptCustomer(ctx, customerId);
  const said = cleanCustomer(fields);
  if (!updateCustomer(ctx.db, customerId, revision, said)) refuse('STALE', { what: 'customer' });
  ctx.changed(customerId, ...Object.keys(said));
  return null;
}

/**
 * Removes what is kept of a customer beside their cars and papers.
 * @throws CUSTOMER_BUSY while a job is open, a document is not settled or money is held; STALE, CUSTOMER_ERASED, NOT_FOUND
 */
export function eraseCustomer(
  ctx: WriteCtx,
  input: { readonly customerId: CustomerId; readonly revision: number },
): null {
  const { customerId, revision } = input;
  const row = keptCustomer(ctx, customerId);
  const { jobs, drafts, unpaid, heldMinor } = openBusiness(ctx.db, customerId);
  if (jobs + drafts + unpaid > 0 || heldMinor > 0)
    refuse('CUSTOMER_BUSY', {
      name: row.name,
      jobs,
      drafts,
      unpaid,
      held: heldMinor > 0 ? 'yes' : 'no',
      heldMinor,
    });
  const done = updateCustomer(ctx.db, customerId, revision, { ...NOTHING_KEPT, erasedMs: ctx.now });
  if (!done) refuse('STALE', { what: 'customer' });
  ctx.changed(customerId, ...Object.keys(NOTHING_KEPT), 'erasedMs');
  return null;
}

function keptCustomer(ctx: WriteCtx, id: CustomerId): CustomerRow {
  const row = customerRow(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'customer', id });
  if (row.erasedMs !== null) refuse('CUSTOMER_ERASED', {});
  return row;
}
