import { z } from 'zod';
import { isBic, isIban, plainIban } from '../iban.ts';
import { PAPER_LANGUAGES } from '../languages.ts';
import { note } from './note.ts';

/** What a quoted price means: fixed, a price that is not gone above, or by the time really taken. */
export const QUOTE_BASES = ['fixed', 'notAbove', 'byTime'] as const;
export type QuoteBasis = (typeof QUOTE_BASES)[number];

/** A deposit is a plain payment, or has its own prepayment invoice that the final one deducts. */
export const DEPOSIT_FORMS = ['payment', 'prepaymentInvoice'] as const;

/**
 * When a voucher is taxed. Single-purpose: where and at which rate is known when it is sold, so its sale is the taxed
 * supply. Multi-purpose: what it is used for is not known yet, so the tax is that of the work it pays for.
 * @source Directive (EU) 2016/1065, articles 30a and 30b of Directive 2006/112/EC
 */
export const VOUCHER_PURPOSES = ['single', 'multi'] as const;
export type VoucherPurpose = (typeof VOUCHER_PURPOSES)[number];

/** Quotes, deposits, invoices and reminders. */
export const billingSettings = z.strictObject({
  depositPpm: z.int().min(0).max(1_000_000).default(200_000),
  depositForm: z.enum(DEPOSIT_FORMS).default('payment'),
  quoteValidDays: z.int().min(1).max(365).default(14),
  pricesIncludeTax: z.boolean().default(true),
  /** False where repair labour bears no sales tax: its lines take the exempt tax, materials the standard one. */
  labourTaxed: z.boolean().default(true),
  quoteBasis: z.enum(QUOTE_BASES).default('fixed'),
  /** Days to pay when the customer has no terms of their own. */
  termsDays: z.int().min(0).max(365).default(14),
  /** The smallest coin that is given: 5 where cash is rounded to five hundredths; 1 = cash is not rounded. */
  cashStepMinor: z.int().min(1).max(100_000).default(1),
  /** What papers for customers are written in who have no language of their own. */
  paperLanguage: z.enum(PAPER_LANGUAGES).default('en'),
  /** When a gift voucher is taxed: when it is sold (single), or when it is used (multi). */
  voucherPurpose: z.enum(VOUCHER_PURPOSES).default('multi'),
  /** How long a voucher is taken after its sale; 0 = for good. */
  voucherDays: z.int().min(0).max(36_500).default(1095),
  /**
   * How long after its last day money of a voucher is held before it may be let go as income. Whether and when a shop
   * may keep it is local law: the default is long on purpose.
   */
  voucherHoldDays: z.int().min(0).max(36_500).default(3650),
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
  labourTaxed: note('yesNo', 'example'),
  quoteBasis: note('choice', 'example'),
  termsDays: note('days', 'example'),
  cashStepMinor: note('minor', 'example'),
  paperLanguage: note('choice', 'choice'),
  voucherPurpose: note('choice', 'standard', '2006/112/EC 30a'),
  voucherDays: note('days', 'example'),
  voucherHoldDays: note('days', 'example'),
  iban: note('text', 'standard', 'ISO 13616'),
  bic: note('text', 'standard', 'ISO 9362'),
  accountHolder: note('text', 'choice'),
  reminderDays: note('list', 'example'),
} as const;
