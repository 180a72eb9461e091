import { z } from 'zod';
import { note } from './note.ts';

/** How the price of work follows from its hours: the mean of the range, or the median. */
export const PRICE_RULES = ['mean', 'median'] as const;

/** Machine work: sections, overlap, speed, what a pad is loaded with, and the price rule. */
export const estimateSettings = z.strictObject({
  sectionLengthMm: z.int().min(200).max(1200).default(500),
  sectionWidthMm: z.int().min(200).max(1200).default(500),
  /** Share of the pad's width that the next lane covers again. */
  overlapPpm: z.int().min(0).max(900_000).default(500_000),
  cutSpeedMmS: z.int().min(5).max(300).default(50),
  refineSpeedMmS: z.int().min(5).max(300).default(50),
  cutPasses: z.int().min(1).max(12).default(4),
  refinePasses: z.int().min(1).max(12).default(4),
  applySec: z.int().min(0).max(300).default(15),
  wipeAndLookSec: z.int().min(0).max(600).default(30),
  padCleanSec: z.int().min(0).max(600).default(20),
  padCleanEverySections: z.int().min(1).max(50).default(2),
  /** What two people get done on one stage, against one: less than twice as much. */
  pairPpm: z.int().min(1_000_000).max(1_990_000).default(1_800_000),
  /** One drop of liquid, µl. */
  dropUl: z.int().min(10).max(2000).default(200),
  dropsPerPad: z.int().min(1).max(30).default(5),
  /** What materials are charged at, on top of what the supplier asks before tax. */
  materialMarkupPpm: z.int().min(0).max(5_000_000).default(300_000),
  priceRule: z.enum(PRICE_RULES).default('mean'),
});

export const estimateNotes = {
  sectionLengthMm: note('mm', 'practice'),
  sectionWidthMm: note('mm', 'practice'),
  overlapPpm: note('ppm', 'practice'),
  cutSpeedMmS: note('mmPerSecond', 'practice'),
  refineSpeedMmS: note('mmPerSecond', 'practice'),
  cutPasses: note('count', 'practice'),
  refinePasses: note('count', 'practice'),
  applySec: note('seconds', 'practice'),
  wipeAndLookSec: note('seconds', 'practice'),
  padCleanSec: note('seconds', 'practice'),
  padCleanEverySections: note('count', 'practice'),
  pairPpm: note('ppm', 'practice'),
  dropUl: note('ul', 'memory'),
  dropsPerPad: note('count', 'practice'),
  materialMarkupPpm: note('ppm', 'practice'),
  priceRule: note('choice', 'choice'),
} as const;
