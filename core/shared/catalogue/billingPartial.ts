import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import type { InvoiceId } from '../ids.ts';
import type { Ppm } from '../units.ts';
import type { PartialPlan } from '../views/partial.ts';
import { invoiceId, jobId, money, revision } from './billingInputs.ts';

/** How far each line of the agreed bill is billed in all; null = as far as its stages are finished. */
const shares = z
  .array(
    z.strictObject({
      line: z.int().min(0).max(199),
      sharePpm: z
        .int()
        .min(0)
        .max(1_000_000)
        .transform((v) => v as Ppm),
    }),
  )
  .max(200)
  .nullable()
  .default(null);

/** Billing a job in parts: what is done so far, or between two who pay. */
export const billingPartial = {
  'billing.readPartialPlan': read<PartialPlan>()({
    needs: 'desk',
    about:
      'What a partial invoice of a job could bill now, by finished stages or as far as asked, and what remains.',
    input: z.strictObject({ jobId, shares }),
    listens: ['quotes', 'invoices', 'jobs', 'work', 'shop', 'customers'],
  }),
  'billing.draftPartial': write<{ readonly invoiceId: InvoiceId }>()({
    needs: 'desk',
    about:
      'Drafts a partial invoice: of each agreed line what is done, or as far as asked for; the rest follows.',
    input: z.strictObject({ jobId, shares }),
    touches: ['invoices', 'jobs'],
  }),
  'billing.splitDraft': write<{ readonly shareId: InvoiceId }>()({
    needs: 'desk',
    about: 'Splits a draft: the owner of the job pays a sum or a share of it by an invoice of their own.',
    input: z.strictObject({
      invoiceId,
      revision,
      part: z.discriminatedUnion('by', [
        z.strictObject({ by: z.literal('sum'), amountMinor: money }),
        z.strictObject({ by: z.literal('share'), sharePpm: z.int().min(0).max(1_000_000) }),
      ]),
    }),
    touches: ['invoices', 'jobs'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
