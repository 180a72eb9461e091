import type { ReadCtx } from '../context.ts';
import { mondayPdf } from '../documents/mondayPdf.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { mannerFor } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import type { MondayView } from '../shared/views/monday.ts';
import { sellerOf } from '../views/billingParty.ts';

/** The Monday page as a PDF of what was gathered. */
export function mondayFile(ctx: ReadCtx, view: MondayView): () => Promise<DocumentFile> {
  const shop = sellerOf(ctx.db);
  const name = say(mannerFor(shop).locale, 'monday.file', { day: view.today });
  return async () => ({
    fileName: `${name}.pdf`,
    mime: 'application/pdf',
    bytes: await mondayPdf(view, shop, ctx.now),
  });
}
