import type { WriteCtx } from '../context.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId } from '../shared/ids.ts';
import { openBusiness } from '../views/customerPage.ts';
import { type CustomerFields, cleanCustomer } from './rules/customer.ts';
import { type CustomerRow, customerRow, insertCustomer, updateCustomer } from './store.ts';

/** Adds a customer; a name is enough. @throws NAME_MISSING, NAME_TOO_LONG, EMAIL_UNREADABLE */
export function addCustomer(
  ctx: WriteCtx,
  input: CustomerFields & { readonly name: string },
): { readonly id: CustomerId } {
  const id = ctx.newId<CustomerId>();
  const said = cleanCustomer({ phone: '', ...input });
  insertCustomer(ctx.db, {
    ...{ kind: 'person', email: '', address: '', country: '', taxNumber: '', locale: '', note: '' },
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
 * Removes a customer's personal details for good. Jobs stay; issued papers keep what the law wants kept on them.
 * @throws CUSTOMER_BUSY while a job is open or money is owed; STALE, CUSTOMER_ERASED, NOT_FOUND
 */
export function eraseCustomer(
  ctx: WriteCtx,
  input: { readonly customerId: CustomerId; readonly revision: number },
): null {
  const { customerId, revision } = input;
  const row = keptCustomer(ctx, customerId);
  const open = openBusiness(ctx.db, customerId);
  if (open.jobs > 0 || open.owedMinor !== 0) refuse('CUSTOMER_BUSY', { name: row.name, jobs: open.jobs });
  const gone = {
    name: '–',
    nameKey: '',
    phone: '',
    phoneKey: '',
    email: '',
    address: '',
    taxNumber: '',
    note: '',
  };
  if (!updateCustomer(ctx.db, customerId, revision, { ...gone, erasedMs: ctx.now }))
    refuse('STALE', { what: 'customer' });
  ctx.changed(customerId, ...Object.keys(gone), 'erasedMs');
  return null;
}

function keptCustomer(ctx: WriteCtx, id: CustomerId): CustomerRow {
  const row = customerRow(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'customer', id });
  if (row.erasedMs !== null) refuse('CUSTOMER_ERASED', {});
  return row;
}
