import { howTo } from '../bookings/rules/stageHow.ts';
import type { ReadCtx } from '../context.ts';
import { panelFacts } from '../paint/rules/panelFacts.ts';
import type { JobId } from '../shared/ids.ts';
import { DEFAULT_STEPS, STEP_ROLES } from '../shared/machineStep.ts';
import type { CardPanel, CardView, JobView } from '../shared/views/bookings.ts';
import type { Shop } from '../shared/views/shop.ts';
import { ownSteps } from './estimateInputs.ts';
import { filmTaken } from './filmTaken.ts';
import { inspectionRow, inspectionRows } from './inspection.ts';
import { jobView } from './jobFacts.ts';
import { shopOf } from './shop.ts';

/**
 * The job card. Film per panel is the lowest reading of this visit; what may go is what the paint rules hold safe for
 * this job: the lowest spot less the gauge's uncertainty, down to the shop's floor, and never past the life cap less
 * what earlier visits took. Nothing on a thin panel. Findings are `defect|severity` pairs.
 * @throws NOT_FOUND when there is no such job
 */
export function cardView(ctx: ReadCtx, input: { readonly jobId: JobId }): CardView {
  const job = jobView(ctx, input);
  const shop = shopOf(ctx.db);
  const own = ownSteps(ctx.db);
  const steps = STEP_ROLES.map((role) => own.find((s) => s.role === role) ?? DEFAULT_STEPS[role]);
  const stages = job.stages
    .filter((s) => s.state !== 'dropped')
    .map((s) => {
      const materials = s.materials.map((m) => m.material);
      return { ...s, how: howTo(s.kind, materials, steps, shop.settings.estimate) };
    });
  const { name, zone, locale, filmUnit, paper } = shop;
  const panels = cardPanels(ctx, job, shop);
  return { job, stages, panels, shop: { name, zone, locale, filmUnit, paper }, nowMs: ctx.now };
}

function cardPanels(ctx: ReadCtx, job: JobView, shop: Shop): readonly CardPanel[] {
  const look = inspectionRow(ctx.db, job.id);
  const noted = look ? inspectionRows(ctx.db, look.id) : { states: [], findings: [], readings: [] };
  const taken = filmTaken(ctx.db, job.vehicle.id).filter((row) => row.jobId !== job.id);
  const named = new Set([
    ...job.stages.flatMap((s) => (s.state === 'dropped' ? [] : s.panels)),
    ...noted.readings.map((r) => r.panel),
    ...noted.findings.map((f) => f.panel),
  ]);
  return [...named].map((panel): CardPanel => {
    const before = taken
      .filter((row) => row.panel === panel)
      .reduce((sum, row) => sum + row.bookedTenthUm, 0);
    const facts = panelFacts(panel, noted, before, shop.settings.paint);
    const { film } = facts;
    const thin = film?.thin ?? false;
    const mayTake = thin ? 0 : facts.safe === null ? null : Math.floor(facts.safe);
    return {
      panel,
      lowestTenthUm: film ? film.min : null,
      mayTakeTenthUm: mayTake,
      thin,
      unknown:
        mayTake !== null ? null : film === null ? 'notRead' : film.refinished ? 'refinished' : 'tooFew',
      findings: facts.findings.map((f) => `${f.defect}|${f.severity}`),
    };
  });
}
