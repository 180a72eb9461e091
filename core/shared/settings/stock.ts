import { z } from 'zod';
import { note } from './note.ts';

export const COSTING = ['movingAverage', 'fifo'] as const;
/** How the value of what is left is told: at the moving average, or by its purchases, oldest used first. */
export type Costing = (typeof COSTING)[number];

/** Reordering and what stock is worth. */
export const stockSettings = z.strictObject({
  /**
   * Share of what jobs ask for that is to be there when they ask. An order that goes out only once the shelf is empty
   * serves some 95 %: what is asked for below 98 % would not be met, but passed.
   */
  serviceLevelPpm: z.int().min(980_000).max(999_900).default(995_000),
  costing: z.enum(COSTING).default('movingAverage'),
  /** Cost of keeping stock for a year, share of its value. */
  holdingPpm: z.int().min(0).max(2_000_000).default(200_000),
  /** Cost of placing and receiving one order, minor units. */
  orderCostMinor: z.int().min(0).max(1_000_000_000).default(1000),
  /** Days of own history that demand is read from. */
  historyDays: z.int().min(14).max(1500).default(180),
  /** Days from putting pads and towels in the wash to having them back clean and dry: 1 = overnight, more at a laundry. */
  washDays: z.int().min(1).max(30).default(1),
});

export const stockNotes = {
  serviceLevelPpm: note('ppm', 'choice'),
  costing: note('choice', 'choice'),
  holdingPpm: note('ppm', 'memory'),
  orderCostMinor: note('minor', 'memory'),
  historyDays: note('days', 'practice'),
  washDays: note('days', 'practice'),
} as const;
