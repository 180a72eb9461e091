import { z } from 'zod';
import { note } from './note.ts';

/** Film rules: when a panel is called thin or refinished and how much film its life allows. */
export const paintSettings = z.strictObject({
  /** A lowest spot below this is called thin, 0.1 µm. */
  thinTenthUm: z.int().min(100).max(3000).default(900),
  /** A spot above this is called likely refinished, 0.1 µm. */
  refinishedTenthUm: z.int().min(500).max(20_000).default(2000),
  /** Most film that polishing may take off one panel over the vehicle's life, 0.1 µm. */
  lifeCapTenthUm: z.int().min(0).max(500).default(75),
  /** Most film that may go off a panel over its life once its owner has agreed to wet sanding, 0.1 µm. */
  sandedCapTenthUm: z.int().min(0).max(1000).default(200),
  /** The gauge's own standard uncertainty, 0.1 µm; the gauge's sheet says it. */
  gaugeUncertaintyTenthUm: z.int().min(0).max(200).default(15),
  /** The smallest step the gauge shows, 0.1 µm: readings that all agree are still no surer than this. */
  gaugeStepTenthUm: z.int().min(1).max(200).default(10),
  /** After work the lowest spot, less its uncertainty, stays above this, 0.1 µm. */
  floorTenthUm: z.int().min(0).max(3000).default(800),
  /** Readings that make a spot. */
  readingsPerSpot: z.int().min(1).max(20).default(3),
});

export const paintNotes = {
  thinTenthUm: note('filmTenthUm', 'practice'),
  refinishedTenthUm: note('filmTenthUm', 'practice'),
  lifeCapTenthUm: note('filmTenthUm', 'practice'),
  sandedCapTenthUm: note('filmTenthUm', 'practice'),
  gaugeUncertaintyTenthUm: note('filmTenthUm', 'memory'),
  gaugeStepTenthUm: note('filmTenthUm', 'memory'),
  floorTenthUm: note('filmTenthUm', 'practice'),
  readingsPerSpot: note('count', 'standard', 'SSPC-PA 2'),
} as const;
