import { mayTestSpot } from '../../bookings/rules/stageOrder.ts';
import type { WriteCtx } from '../../context.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { FilmTenthUm } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';
import { isAgreed, stagesOf } from '../../views/inspection.ts';
import { insertTestSpot } from '../store/inspection.ts';
import { needInspection, needPaintJob, noteChange } from './notes.ts';

/**
 * Records sections tried on a panel. Once work with a clay stage is agreed, this panel has to be clayed first; at
 * the look before that, whoever tries the spot clays it by hand.
 * @throws TEST_SPOT_UNCLAYED, NO_INSPECTION, PANEL_NOT_ON_BODY
 */
export function addTestSpot(
  ctx: WriteCtx,
  input: InputOf<(typeof paintEntries)['paint.recordTestSpot']>,
): void {
  const look = needInspection(ctx, input.jobId, input.panel);
  const stages = stagesOf(ctx.db, input.jobId).map((s) => ({
    ...s,
    panels: JSON.parse(s.panels) as PanelId[],
    panelsDone: JSON.parse(s.panelsDone) as PanelId[],
  }));
  const toClay =
    isAgreed(ctx.db, input.jobId) && stages.some((s) => s.kind === 'clay' && s.state !== 'dropped');
  if (toClay && !mayTestSpot(input.panel, stages))
    refuse('TEST_SPOT_UNCLAYED', { panel: input.panel, body: needPaintJob(ctx, input.jobId).body });
  const id = ctx.newId<string>();
  insertTestSpot(ctx.db, {
    id,
    inspectionId: look.id,
    panel: input.panel,
    role: input.role,
    passes: input.passes,
    sections: input.sections,
    actualS: input.seconds,
    removedTenthUm: input.removedTenthUm as FilmTenthUm | null,
    personId: ctx.actor?.personId ?? null,
    atMs: ctx.now,
  });
  ctx.changed(id, 'testSpot');
  noteChange(ctx, look.id, 'testSpots');
}
