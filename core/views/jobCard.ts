import { howTo } from '../bookings/rules/stageHow.ts';
import type { ReadCtx } from '../context.ts';
import { takenAt } from '../paint/rules/mayCome.ts';
import { panelFacts } from '../paint/rules/panelFacts.ts';
import type { JobId } from '../shared/ids.ts';
import { DEFAULT_STEPS, STEP_ROLES } from '../shared/machineStep.ts';
import type { JobView } from '../shared/views/bookings.ts';
import type { CardPanel, CardView } from '../shared/views/card.ts';
import type { Shop } from '../shared/views/shop.ts';
import { ownSteps } from './estimateInputs.ts';
import { filmTaken } from './filmTaken.ts';
import { foundView, inspectionRow, inspectionRows } from './inspection.ts';
import { jobView } from './jobFacts.ts';
import { shopOf } from './shop.ts';
import { sheetPlaces } from './stockSheets.ts';

/**
 * The job card. Film per panel is the lowest reading of this visit before work; what may still come off is what the
 * paint rules say now, work already done counted in.
 * @throws NOT_FOUND when there is no such job
 */
export function cardView(ctx: ReadCtx, input: { readonly jobId: JobId }): CardView {
  const job = jobView(ctx, input);
  const shop = shopOf(ctx.db);
  const own = ownSteps(ctx.db);
  const steps = STEP_ROLES.map((role) => own.find((s) => s.role === role) ?? DEFAULT_STEPS[role]);
  const places = sheetPlaces(ctx.db);
  const stages = job.stages
    .filter((s) => s.state !== 'dropped')
    .map((s) => {
      const materials = s.materials.map((m) => m.material);
      const sheets = materials.flatMap((m) => places.get(m) ?? []);
      return { ...s, sheets, how: howTo(s.kind, materials, steps, shop.settings.estimate) };
    });
  const { name, zone, locale, filmUnit, paper } = shop;
  const panels = cardPanels(ctx, job, shop);
  return { job, stages, panels, shop: { name, zone, locale, filmUnit, paper }, nowMs: ctx.now };
}

function cardPanels(ctx: ReadCtx, job: JobView, shop: Shop): readonly CardPanel[] {
  const look = inspectionRow(ctx.db, job.id);
  const noted = look
    ? inspectionRows(ctx.db, look.id)
    : { states: [], findings: [], consents: [], readings: [] };
  const taken = filmTaken(ctx.db, job.vehicle.id);
  const named = new Set([
    ...job.stages.flatMap((s) => (s.state === 'dropped' ? [] : s.panels)),
    ...noted.readings.map((r) => r.panel),
    ...noted.findings.map((f) => f.panel),
  ]);
  return [...named].map((panel): CardPanel => {
    const facts = panelFacts(panel, noted, takenAt(taken, panel, job.id), shop.settings.paint);
    const { film, filmAfter, may } = facts;
    return {
      panel,
      lowestTenthUm: film ? film.min : null,
      lowestAfterTenthUm: filmAfter ? filmAfter.min : null,
      mayTakeTenthUm: may.tenthUm === null ? null : Math.round(may.tenthUm),
      thin: may.why === 'thin',
      why: may.why,
      findings: facts.findings.map(foundView),
    };
  });
}
