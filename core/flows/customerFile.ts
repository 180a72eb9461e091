import type { ReadCtx } from '../context.ts';
import { pictureBytes } from '../paint/commands/pictures.ts';
import type { CustomerId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { customerRecords, type Kept } from '../views/customerFile.ts';
import { customerKept } from '../views/customerPage.ts';
import { shopOf } from '../views/shop.ts';

/**
 * Everything that is kept about a customer as one JSON file, pictures within it as base64. Column names carry units as
 * everywhere: `_ms` UTC milliseconds, `_min` minutes, `_minor` minor units of the currency, `_tenth_um` 0.1 µm.
 * @throws NOT_FOUND, CUSTOMER_ERASED
 */
export function customerFile(
  ctx: ReadCtx,
  input: { readonly customerId: CustomerId },
): () => Promise<DocumentFile> {
  customerKept(ctx.db, input.customerId);
  const shop = shopOf(ctx.db);
  const records = customerRecords(ctx.db, input.customerId);
  const content = {
    shop: shop.name,
    currency: shop.currency,
    zone: shop.zone,
    madeMs: ctx.now,
    ...records,
    picture: (records['picture'] ?? []).map((row) => withBytes(ctx, row)),
  };
  const bytes = new TextEncoder().encode(`${JSON.stringify(content, null, 2)}\n`);
  return async () => ({
    fileName: `customer-${input.customerId}.json`,
    mime: 'application/json',
    bytes,
  });
}

/** A picture whose file is gone is listed without it. */
function withBytes(ctx: ReadCtx, row: Kept): Kept {
  const bytes = pictureBytes(ctx, String(row['hash']));
  return { ...row, base64: bytes === null ? null : Buffer.from(bytes).toString('base64') };
}
