import type { ReadCtx } from '../../context.ts';
import type { JobId } from '../../shared/ids.ts';
import type { FilmTenthUm, Minor } from '../../shared/units.ts';
import type { SandingOptionView } from '../../shared/views/estimate.ts';
import { newestEstimate } from '../../views/estimates.ts';
import { inspectionRow } from '../../views/inspection.ts';
import { planJob } from '../rules/plan.ts';
import { sandingOptions } from '../rules/sandingOptions.ts';
import { gatherAgain } from './make.ts';

/** Wet sanding as an option, panel by panel, beside the newest version; nothing before there is one and somebody has looked. */
export function sandingOfJob(ctx: ReadCtx, input: { readonly jobId: JobId }): readonly SandingOptionView[] {
  const newest = newestEstimate(ctx.db, input.jobId);
  if (newest === null || !inspectionRow(ctx.db, input.jobId)) return [];
  const g = gatherAgain(ctx, input.jobId, newest);
  const level = new Map(newest.panels.map((p) => [p.panel, p.level]));
  const plan = planJob(
    g.c,
    g.c.panels.map((p) => level.get(p.size.panel) ?? 'leave'),
  );
  return sandingOptions(g.c, plan).map((o): SandingOptionView => {
    const panel = g.c.panels.find((p) => p.size.panel === o.panel);
    const limit = panel?.sandable ?? null;
    return {
      ...o,
      lowTenthUm: o.lowTenthUm as FilmTenthUm,
      highTenthUm: o.highTenthUm as FilmTenthUm,
      allTenthUm: o.allTenthUm as FilmTenthUm,
      limitTenthUm: limit === null ? null : (Math.round(limit) as FilmTenthUm),
      addedMinor: o.addedMinor as Minor,
      consent: panel?.consent ?? null,
      override: panel?.override ?? null,
    };
  });
}
