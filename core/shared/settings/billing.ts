import { z } from 'zod';
import { isBic, isIban, plainIban } from '../iban.ts';
import { PAPER_LANGUAGES } from '../languages.ts';
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
  /** The smallest coin that is given: 5 where cash is rounded to five hundredths; 1 = cash is not rounded. */
  cashStepMinor: z.int().min(1).max(100_000).default(1),
  /** What papers for customers are written in who have no language of their own. */
  paperLanguage: z.enum(PAPER_LANGUAGES).default('en'),
  /** Where customers transfer to; '' = not said on invoices. */
  iban: z
    .string()
    .transform(plainIban)
    .refine((plain) => plain === '' || isIban(plain))
    .default(''),
  /** The bank's code, '' where the account number is enough. */
  bic: z
    .string()
    .transform(plainIban)
    .refine((plain) => plain === '' || isBic(plain))
    .default(''),
  /** Whose account it is; '' = the shop's name. At most what a transfer carries. */
  accountHolder: z.string().trim().max(70).default(''),
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
  cashStepMinor: note('minor', 'example'),
  paperLanguage: note('choice', 'choice'),
  iban: note('text', 'standard', 'ISO 13616'),
  bic: note('text', 'standard', 'ISO 9362'),
  accountHolder: note('text', 'choice'),
  reminderDays: note('list', 'example'),
} as const;
