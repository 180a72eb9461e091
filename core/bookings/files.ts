import type { ReadCtx } from '../context.ts';
import { jobCardPdf } from '../documents/jobCard.ts';
import type { JobId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { mannerFor } from '../shared/text/manner.ts';
import { cardView } from '../views/jobCard.ts';
import { shopOf } from '../views/shop.ts';

/** The job card as a PDF. @throws NOT_FOUND when there is no such job */
export function jobCardFile(ctx: ReadCtx, input: { readonly jobId: JobId }): () => Promise<DocumentFile> {
  const card = cardView(ctx, input);
  const manner = mannerFor(shopOf(ctx.db));
  return async () => ({
    fileName: `job-card-${card.job.number}.pdf`,
    mime: 'application/pdf',
    bytes: await jobCardPdf(card, manner),
  });
}
