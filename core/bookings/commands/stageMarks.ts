import type { WriteCtx } from '../../context.ts';
import type { bookingsEntries } from '../../shared/catalogue/bookings.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import { addStageNote } from '../store/records.ts';
import { addPanelDone, panelsDoneOf, removePanelDone, saveStage } from '../store/stages.ts';
import { endRunning } from '../store/work.ts';
import { bodyOf, needStage, refuseState } from './needs.ts';
import { readyIfLast } from './stages.ts';

type In<N extends keyof typeof bookingsEntries> = InputOf<(typeof bookingsEntries)[N]>;

/**
 * Drops a stage that will not be done. Time worked on it stays; the reason is kept as a note.
 * @throws STAGE_STATE when it is done or dropped
 */
export function dropStage(ctx: WriteCtx, input: In<'bookings.dropStage'>): void {
  const { stage, job } = needStage(ctx.db, input.stageId);
  refuseState(stage, stage.state === 'done' || stage.state === 'dropped', 'drop');
  endRunning(ctx.db, stage.id, ctx.now);
  saveStage(ctx.db, stage.id, { state: 'dropped' });
  noteStage(ctx, { stageId: stage.id, note: input.reason });
  ctx.changed(stage.id, 'state');
  if (job.state === 'inWork') readyIfLast(ctx, job);
}

/**
 * Ticks a panel off within a stage in hand, or takes the tick back. Returns how many are ticked.
 * @throws STAGE_STATE when the stage is not in hand
 * @throws PANEL_NOT_IN_STAGE when the stage does not touch this panel
 */
export function panelDone(ctx: WriteCtx, input: In<'bookings.panelDone'>): { readonly panelsDone: number } {
  const { stage, job } = needStage(ctx.db, input.stageId);
  refuseState(stage, stage.state !== 'inWork' && stage.state !== 'paused', 'panel');
  if (!stage.panels.includes(input.panel))
    refuse('PANEL_NOT_IN_STAGE', {
      panel: input.panel,
      stage: stage.kind,
      body: bodyOf(ctx.db, job.vehicleId),
    });
  const personId = ctx.actor?.personId ?? null;
  if (input.done) addPanelDone(ctx.db, { stageId: stage.id, panel: input.panel, doneMs: ctx.now, personId });
  else removePanelDone(ctx.db, stage.id, input.panel);
  ctx.changed(stage.id, 'panels');
  return { panelsDone: panelsDoneOf(ctx.db, job.id).get(stage.id)?.length ?? 0 };
}

/** Notes something on a stage. */
export function noteStage(ctx: WriteCtx, input: In<'bookings.noteStage'>): void {
  const { stage } = needStage(ctx.db, input.stageId);
  addStageNote(ctx.db, {
    id: ctx.newId<string>(),
    stageId: stage.id,
    atMs: ctx.now,
    personId: ctx.actor?.personId ?? null,
    note: input.note,
  });
  ctx.changed(stage.id, 'note');
}
