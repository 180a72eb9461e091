import type { WriteCtx } from '../context.ts';
import type { Made } from '../estimate/commands/make.ts';
import { allowPanel } from '../paint/commands/notes.ts';
import { agreeSanding, withdrawSanding } from '../paint/commands/sanding.ts';
import type { estimateEntries } from '../shared/catalogue/estimate.ts';
import type { InputOf } from '../shared/entry.ts';
import { newestEstimate } from '../views/estimates.ts';
import { estimateAgain, estimateAsChosen } from './estimateJob.ts';

type In<N extends keyof typeof estimateEntries> = InputOf<(typeof estimateEntries)[N]>;

/**
 * The owner's consent to wet sand a panel, the name that takes it past the film rules where there is one, and the
 * version that plans it: all of it, or nothing.
 * @throws NO_INSPECTION, NO_ESTIMATE, PANEL_NOT_ON_BODY, FILM_TOO_THIN, FILM_BELOW_FLOOR, SANDING_FILM_UNKNOWN, SANDING_NOT_AGREED, NOTHING_TO_SAND
 */
export function agreeAndPlan(ctx: WriteCtx, input: In<'estimate.agreeSanding'>): Made {
  const { allow, ...consent } = input;
  const { jobId, panel } = consent;
  agreeSanding(ctx, consent);
  if (allow) allowPanel(ctx, { jobId, panel, ...allow });
  return estimateAsChosen(ctx, { jobId, levels: [{ panel, level: 'sanded' }] });
}

/** Takes a consent back; where the newest version sands the panel, the next one does not. @throws NO_INSPECTION, PANEL_NOT_ON_BODY */
export function withdrawAndPlan(ctx: WriteCtx, input: In<'estimate.withdrawSanding'>): null {
  const { jobId, panel } = input;
  withdrawSanding(ctx, input);
  const sands = newestEstimate(ctx.db, jobId)?.panels.some((p) => p.panel === panel && p.level === 'sanded');
  if (sands) estimateAgain(ctx, { jobId });
  return null;
}
