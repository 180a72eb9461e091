import { z } from 'zod';
import { note } from './note.ts';

/** Signing in. */
export const accessSettings = z.strictObject({
  /** Wrong PINs before a wait. */
  pinTries: z.int().min(1).max(20).default(3),
  /** The first wait; each further one is twice as long, up to an hour. */
  pinWaitSec: z.int().min(5).max(3600).default(30),
  /** A person stays signed in at a window for this long without a new sign-in. */
  sessionMin: z.int().min(5).max(44_640).default(720),
});

export const accessNotes = {
  pinTries: note('count', 'choice'),
  pinWaitSec: note('seconds', 'choice'),
  sessionMin: note('minutes', 'choice'),
} as const;
