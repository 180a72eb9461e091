import { readJobQuote } from '../billing/read/quote.ts';
import type { ReadCtx } from '../context.ts';
import { type CarRecordPaper, carRecordPdf } from '../documents/carRecordPdf.ts';
import { emlDraft } from '../documents/eml.ts';
import { mannerOf } from '../documents/letter.ts';
import { refuse } from '../shared/errors.ts';
import type { JobId } from '../shared/ids.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { limitSentences } from '../shared/text/limits.ts';
import { say } from '../shared/text/say.ts';
import { paperTagOf, partyOf, sellerOf } from '../views/billingParty.ts';
import { cardView } from '../views/jobCard.ts';
import { withLogo } from '../views/logo.ts';

type Which = { readonly jobId: JobId; readonly recordId: string };
type Rendered = () => Promise<DocumentFile>;

/** The record of a car that came or went, as a PDF. @throws NOT_FOUND when there is no such job or record */
export function carRecordFile(ctx: ReadCtx, input: Which): Rendered {
  const paper = paperOf(ctx, input);
  return () => fileOf(paper);
}

/** An unsent message to the customer with that PDF attached. @throws NOT_FOUND as above */
export function carRecordDraft(ctx: ReadCtx, input: Which): Rendered {
  const paper = paperOf(ctx, input);
  const { seller, customer, job, record } = paper;
  const { locale } = mannerOf(seller);
  const values = {
    name: customer.name,
    vehicle: job.vehicle.makeModel,
    shop: seller.name,
    phone: seller.phone,
  };
  return async () => {
    const file = await fileOf(paper);
    const bytes = emlDraft({
      to: customer.email,
      from: seller.email,
      fromName: seller.name,
      subject: say(locale, `doc.mail.${record.kind}Subject`, values),
      body: say(locale, `doc.mail.${record.kind}Body`, values),
      atMs: ctx.now,
      attachments: [file],
    });
    return { fileName: file.fileName.replace(/\.pdf$/, '.eml'), mime: 'message/rfc822', bytes };
  };
}

function paperOf(ctx: ReadCtx, { jobId, recordId }: Which): CarRecordPaper {
  const { job, panels } = cardView(ctx, { jobId });
  const record = job.records.find((r) => r.id === recordId);
  if (!record) return refuse('NOT_FOUND', { what: 'carRecord', id: recordId });
  const tag = record.locale || paperTagOf(ctx.db, job.customer.id);
  const seller = withLogo(ctx.db, sellerOf(ctx.db, tag));
  const quote = readJobQuote(ctx, jobId);
  const agreed = quote?.options.find((o) => o.letter === quote.acceptance?.letter);
  const { termsDays: _, ...customer } = partyOf(ctx.db, job.customer.id);
  return {
    seller,
    customer,
    job,
    record,
    panels: panels.filter((p) => p.lowestTenthUm !== null),
    stays: limitSentences(mannerOf(seller), agreed?.limits ?? [], job.vehicle.body),
  };
}

async function fileOf(paper: CarRecordPaper): Promise<DocumentFile> {
  const { job, record } = paper;
  const nth = job.records.filter((r) => r.kind === record.kind).indexOf(record);
  const name = `${record.kind}-${job.number}${nth > 0 ? `-${nth + 1}` : ''}`;
  return { fileName: `${name}.pdf`, mime: 'application/pdf', bytes: await carRecordPdf(paper) };
}
