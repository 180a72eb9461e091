import { z } from 'zod';
import { note } from './note.ts';

/** What the journal books on. The shop names each as its accountant's chart does. */
export const ACCOUNTS = [
  'cash',
  'card',
  'bank',
  'receivables',
  'taxOwed',
  'depositsHeld',
  'creditsHeld',
  'vouchersHeld',
  'tipsHeld',
  'revenue',
  'rounding',
  'cashDifference',
  'vouchersLetGo',
  'openingFloat',
] as const;
export type Account = (typeof ACCOUNTS)[number];

/** The account's name in the chart: it begins with a letter or figure, so that no spreadsheet runs it as a formula. */
function code(example: string) {
  return z
    .string()
    .trim()
    .regex(/^[\p{L}\d][\p{L}\d ./-]{0,19}$/u)
    .default(example);
}

/**
 * An example chart, invented: four figures, assets from 1, what is owed from 2, what the owner put in from 3,
 * income from 4.
 */
export const accountSettings = z.strictObject({
  cash: code('1000'),
  card: code('1010'),
  bank: code('1020'),
  receivables: code('1200'),
  taxOwed: code('2000'),
  depositsHeld: code('2100'),
  creditsHeld: code('2110'),
  vouchersHeld: code('2130'),
  tipsHeld: code('2120'),
  revenue: code('4000'),
  rounding: code('4900'),
  cashDifference: code('4910'),
  vouchersLetGo: code('4920'),
  openingFloat: code('3000'),
} satisfies Readonly<Record<Account, z.ZodType<string>>>);

const example = note('text', 'example');

export const accountNotes = {
  cash: example,
  card: example,
  bank: example,
  receivables: example,
  taxOwed: example,
  depositsHeld: example,
  creditsHeld: example,
  vouchersHeld: example,
  tipsHeld: example,
  revenue: example,
  rounding: example,
  cashDifference: example,
  vouchersLetGo: example,
  openingFloat: example,
} as const;
