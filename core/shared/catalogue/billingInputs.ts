import { z } from 'zod';
import type { CustomerId, InvoiceId, JobId, QuoteId } from '../ids.ts';
import type { Minor } from '../units.ts';
import { PAYMENT_WAYS } from '../views/billing.ts';
import { localDayInput } from './inputs.ts';

export const id = z.string().min(1).max(40);

export const jobId = id.transform((v) => v as JobId);

export const quoteId = id.transform((v) => v as QuoteId);

export const customerId = id.transform((v) => v as CustomerId);

export const invoiceId = id.transform((v) => v as InvoiceId);

export const revision = z.int().min(1);

export const money = z
  .int()
  .min(1)
  .max(1_000_000_000_000)
  .transform((v) => v as Minor);

/** Money that may be none. */
export const amount = z
  .int()
  .min(0)
  .max(1_000_000_000_000)
  .transform((v) => v as Minor);

/** A thing of the price list beside the work of a quote: any of its dated prices names it. */
export const quotedThing = z.strictObject({
  priceId: id,
  pieces: z.int().min(1).max(100_000),
  discountMinor: amount.default(0 as Minor),
});

export const way = z.enum(PAYMENT_WAYS).exclude(['account']);

export const note = z.string().trim().max(400).default('');

export const date = z.enum(['ask', 'today', 'lastDay']).default('ask');

export const period = { fromDay: localDayInput, toDay: localDayInput };
