import { z } from 'zod';
import { note } from './note.ts';

/** What a quoted price means: fixed, a price that is not gone above, or by the time really taken. */
export const QUOTE_BASES = ['fixed', 'notAbove', 'byTime'] as const;
export type QuoteBasis = (typeof QUOTE_BASES)[number];

/** A deposit is a plain payment, or has its own prepayment invoice that the final one deducts. */
export const DEPOSIT_FORMS = ['payment', 'prepaymentInvoice'] as const;

/** Quotes, deposits, invoices and reminders. */
export const billingSettings = z.strictObject({
  depositPpm: z.int().min(0).max(1_000_000).default(200_000),
  depositForm: z.enum(DEPOSIT_FORMS).default('payment'),
  quoteValidDays: z.int().min(1).max(365).default(14),
  pricesIncludeTax: z.boolean().default(true),
  quoteBasis: z.enum(QUOTE_BASES).default('fixed'),
  /** Days to pay when the customer has no terms of their own. */
  termsDays: z.int().min(0).max(365).default(14),
  /** Days after the due day on which a reminder is proposed. */
  reminderDays: z.array(z.int().min(1).max(365)).max(5).default([7, 14, 30]),
});

export const billingNotes = {
  depositPpm: note('ppm', 'example'),
  depositForm: note('choice', 'example'),
  quoteValidDays: note('days', 'example'),
  pricesIncludeTax: note('yesNo', 'example'),
  quoteBasis: note('choice', 'example'),
  termsDays: note('days', 'example'),
  reminderDays: note('list', 'example'),
} as const;
