import { z } from 'zod';
import { note } from './note.ts';

/** Promises and offers. */
export const promiseSettings = z.strictObject({
  /** A pick-up is promised at the first slot that is at least this likely. */
  levelPpm: z.int().min(500_000).max(999_000).default(800_000),
  /** Drop-offs and pick-ups are offered on this grid. */
  slotMin: z.int().min(5).max(240).default(30),
  offerCount: z.int().min(1).max(5).default(3),
  /** Moving a vehicle from one bay to another. */
  moveMin: z.int().min(0).max(120).default(10),
  /** A drop-off later than this is shown as late. */
  graceMin: z.int().min(0).max(480).default(15),
});

export const promiseNotes = {
  levelPpm: note('ppm', 'choice'),
  slotMin: note('minutes', 'choice'),
  offerCount: note('count', 'choice'),
  moveMin: note('minutes', 'practice'),
  graceMin: note('minutes', 'practice'),
} as const;
