import { z } from 'zod';
import { CONSENT_WAYS } from '../consent.ts';
import { PANELS } from '../vocabulary.ts';
import { jobIdInput } from './inputs.ts';

/** A panel of a job's car. */
export const onPanel = { jobId: jobIdInput, panel: z.enum(PANELS) } as const;

/** Who takes a panel past the film rules, and why: it stands on the quote. */
export const allowance = {
  person: z.string().trim().min(1).max(120),
  reason: z.string().trim().min(3).max(400),
} as const;

/** Who agrees to wet sand a panel, how, and down to what depth at most, 0.1 µm. */
export const sanding = {
  ...onPanel,
  name: z.string().trim().min(2).max(120),
  way: z.enum(CONSENT_WAYS),
  upToTenthUm: z.int().min(1).max(1000),
} as const;
