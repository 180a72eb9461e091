import type { ReadCtx } from '../context.ts';
import { countPdf } from '../documents/countPdf.ts';
import { countCsv } from '../documents/stockCsv.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { sellerOf } from '../views/billingParty.ts';
import { withLogo } from '../views/logo.ts';
import { countPlan } from '../views/stockCountPlan.ts';

/** The day's count list, gathered now and rendered afterwards. */
export function countFile(ctx: ReadCtx, input: { readonly as: 'pdf' | 'csv' }): () => Promise<DocumentFile> {
  const plan = countPlan(ctx);
  const name = `count-${plan.today}`;
  if (input.as === 'csv') {
    const bytes = new TextEncoder().encode(countCsv(plan.rows));
    return async () => ({ fileName: `${name}.csv`, mime: 'text/csv; charset=utf-8', bytes });
  }
  const shop = withLogo(ctx.db, sellerOf(ctx.db));
  return async () => ({
    fileName: `${name}.pdf`,
    mime: 'application/pdf',
    bytes: await countPdf(plan, shop, ctx.now),
  });
}
