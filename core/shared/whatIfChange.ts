import { z } from 'zod';
import { personIdInput } from './catalogue/inputs.ts';
import { problem } from './problems.ts';
import { PURPOSES } from './views/bookings.ts';
import { BAY_KINDS } from './vocabulary.ts';

/** The most that one question adds of a thing. More is another shop, and its past says nothing of that. */
const MOST_MORE = 5;

/** Minor units: all hours of a week of the most technicians, each at the most that an hour of somebody may cost. */
export const MOST_COST_WEEK_MINOR = 100_000_000 * 168 * MOST_MORE;

/** What would be different; left out or null = as it is. Shares and changes in parts per million. */
export const whatIfChange = z
  .strictObject({
    bay: z.strictObject({ bayKind: z.enum(BAY_KINDS), count: z.int().min(1).max(MOST_MORE) }).nullable(),
    /** Somebody who can what `like` can, and works the same hours or in the longer ones. */
    technician: z
      .strictObject({
        like: personIdInput,
        count: z.int().min(1).max(MOST_MORE),
        hours: z.enum(['same', 'late']),
      })
      .nullable(),
    /** Minutes that the shop closes later, on every day it is open. */
    longerMin: z.int().min(0).max(360),
    pricePpm: z.int().min(-500_000).max(1_000_000),
    asksPpm: z.int().min(-900_000).max(2_000_000),
    mix: z.strictObject({ purpose: z.enum(PURPOSES), sharePpm: z.int().min(0).max(1_000_000) }).nullable(),
    costWeekMinor: z.int().min(0).max(MOST_COST_WEEK_MINOR),
  })
  .partial()
  .refine((c) => c.technician?.hours !== 'late' || (c.longerMin ?? 0) > 0, {
    message: problem('lateWithoutHours'),
    path: ['longerMin'],
  });
export type WhatIfChange = z.output<typeof whatIfChange>;
