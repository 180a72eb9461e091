import { howTo } from '../bookings/rules/stageHow.ts';
import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { JobId } from '../shared/ids.ts';
import type { CardPanel, CardView } from '../shared/views/bookings.ts';
import type { PanelId } from '../shared/vocabulary.ts';
import { jobView } from './jobFacts.ts';
import { shopOf } from './shop.ts';

const FILM = `SELECT f.panel, min(f.tenth_um) AS lowest FROM film_reading f JOIN inspection i ON i.id = f.inspection_id
  WHERE i.job_id = :jobId AND f.phase = 'before' AND f.removed_ms IS NULL GROUP BY f.panel`;
const FINDINGS = `SELECT f.panel, f.defect || '|' || f.severity AS words FROM finding f
  JOIN inspection i ON i.id = f.inspection_id WHERE i.job_id = :jobId AND f.removed_ms IS NULL ORDER BY f.at_ms, f.id`;
const TAKEN = `SELECT r.panel, sum(r.booked_tenth_um) AS taken FROM panel_removal r JOIN job j ON j.id = r.job_id
  WHERE j.vehicle_id = :vehicleId GROUP BY r.panel`;

/**
 * The job card. Film per panel is the lowest reading of this visit; what may still go is the life cap less what was
 * booked at every visit, and nothing on a thin panel. Findings are `defect|severity` pairs.
 * @throws NOT_FOUND when there is no such job
 */
export function cardView(ctx: ReadCtx, input: { readonly jobId: JobId }): CardView {
  const job = jobView(ctx, input);
  const shop = shopOf(ctx.db);
  const stages = job.stages
    .filter((s) => s.state !== 'dropped')
    .map((s) => ({
      ...s,
      how: howTo(
        s.kind,
        s.materials.map((m) => m.material),
      ),
    }));
  const paint = shop.settings.paint;
  const film = new Map(
    allRows<{ panel: PanelId; lowest: number }>(ctx.db, FILM, input).map((r) => [r.panel, r.lowest]),
  );
  const taken = new Map(
    allRows<{ panel: PanelId; taken: number }>(ctx.db, TAKEN, { vehicleId: job.vehicle.id }).map((r) => [
      r.panel,
      r.taken,
    ]),
  );
  const findings = allRows<{ panel: PanelId; words: string }>(ctx.db, FINDINGS, input);
  const named = new Set([
    ...stages.flatMap((s) => s.panels),
    ...film.keys(),
    ...findings.map((f) => f.panel),
  ]);
  const panels = [...named].map((panel): CardPanel => {
    const lowest = film.get(panel) ?? null;
    const thin = lowest !== null && lowest < paint.thinTenthUm;
    const left = Math.max(0, paint.lifeCapTenthUm - (taken.get(panel) ?? 0));
    const mayTake = lowest === null ? null : thin ? 0 : left;
    const words = findings.filter((f) => f.panel === panel).map((f) => f.words);
    return { panel, lowestTenthUm: lowest, mayTakeTenthUm: mayTake, thin, findings: words };
  });
  const { name, zone, locale, filmUnit, paper } = shop;
  return { job, stages, panels, shop: { name, zone, locale, filmUnit, paper }, nowMs: ctx.now };
}
