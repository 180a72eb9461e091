import type { WriteCtx } from '../../context.ts';
import { panelsOf } from '../../shared/bodies.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import { type DepthRange, depthOf, hasDepth } from '../../shared/depths.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { InspectionId, JobId } from '../../shared/ids.ts';
import type { FilmTenthUm } from '../../shared/units.ts';
import type { PanelId } from '../../shared/vocabulary.ts';
import { type InspectionRow, inspectionRow, type PaintJob, paintJob } from '../../views/inspection.ts';
import { usualSubstrate } from '../rules/panelFacts.ts';
import {
  insertFinding,
  insertInspection,
  type PanelStateFields,
  removeFindingRow,
  savePanelState,
  touchInspection,
} from '../store/inspection.ts';

type In<N extends keyof typeof paintEntries> = InputOf<(typeof paintEntries)[N]>;

/** Opens the inspection of a job; one that is open already is returned. @throws NOT_FOUND */
export function startInspection(
  ctx: WriteCtx,
  input: In<'paint.startInspection'>,
): { readonly inspectionId: InspectionId } {
  const job = needPaintJob(ctx, input.jobId);
  const open = inspectionRow(ctx.db, job.jobId);
  if (open) return { inspectionId: open.id };
  const id = ctx.newId<InspectionId>();
  insertInspection(ctx.db, {
    id,
    jobId: job.jobId,
    vehicleId: job.vehicleId,
    personId: ctx.actor?.personId ?? null,
    startedMs: ctx.now,
  });
  ctx.changed(id, 'startedMs');
  ctx.changed(job.jobId, 'inspection');
  return { inspectionId: id };
}

/**
 * Notes the same finding on one panel or several, on all of them or on none; its depth is the class of its severity
 * unless a range is given.
 * @throws PANEL_NOT_ON_BODY · DEPTH_REVERSED · DEPTH_NOT_OF_DEFECT · DEPTH_DOUBTFUL until it is said to be right
 */
export function addFindings(
  ctx: WriteCtx,
  input: In<'paint.addFindings'>,
): { readonly findingIds: readonly string[] } {
  const panels = [...new Set(input.panels)];
  const look = needInspection(ctx, input.jobId, ...panels);
  const findingIds = panels.map((panel) => keepFinding(ctx, look, panel, input));
  notePanels(ctx, look.id, panels, 'findings');
  return { findingIds };
}

type Seen = Omit<In<'paint.addFindings'>, 'jobId' | 'panels'>;

function keepFinding(ctx: WriteCtx, look: InspectionRow, panel: PanelId, input: Seen): string {
  const depth = input.depth ? givenDepth(input.depth, input) : depthOf(input.defect, input.severity);
  const findingId = ctx.newId<string>();
  insertFinding(ctx.db, {
    id: findingId,
    inspectionId: look.id,
    panel,
    defect: input.defect,
    severity: input.severity,
    lowTenthUm: depth.low as FilmTenthUm,
    highTenthUm: depth.high as FilmTenthUm,
    note: input.note,
    personId: ctx.actor?.personId ?? null,
    atMs: ctx.now,
  });
  return findingId;
}

/** Deeper than most paint is thick, 0.1 µm: likely typed in the other unit. @source common practice, no source */
const THROUGH_ALL = 1000;

function givenDepth(depth: DepthRange, { defect, sure }: Seen): DepthRange {
  if (!hasDepth(defect)) refuse('DEPTH_NOT_OF_DEFECT', { defect });
  if (depth.low > depth.high) refuse('DEPTH_REVERSED', {});
  if (depth.high > THROUGH_ALL && !sure) refuse('DEPTH_DOUBTFUL', { highTenthUm: depth.high });
  return depth;
}

/** Takes a finding back. @throws NOT_FOUND */
export function removeFinding(ctx: WriteCtx, input: In<'paint.removeFinding'>): null {
  const look = needInspection(ctx, input.jobId);
  if (!removeFindingRow(ctx.db, look.id, input.findingId, ctx.now))
    refuse('NOT_FOUND', { what: 'finding', id: input.findingId });
  ctx.changed(input.findingId);
  noteChange(ctx, look.id, 'findings');
  return null;
}

/** Says what a panel is made of: it decides whether the gauge can read it. */
export function setSubstrate(ctx: WriteCtx, input: In<'paint.setSubstrate'>): null {
  return setState(ctx, input.jobId, input.panel, { substrate: input.substrate });
}

/** Notes the grit felt through a bag. */
export function feltContamination(ctx: WriteCtx, input: In<'paint.feltContamination'>): null {
  return setState(ctx, input.jobId, input.panel, { felt: input.felt });
}

/** A named person takes a panel beyond the film rules, with the reason that stands on the quote. */
export function allowPanel(ctx: WriteCtx, input: In<'paint.allowPanel'>): null {
  return setState(ctx, input.jobId, input.panel, {
    overridePerson: input.person,
    overrideReason: input.reason,
  });
}

/** Takes such a permission back. */
export function forbidPanel(ctx: WriteCtx, input: In<'paint.forbidPanel'>): null {
  return setState(ctx, input.jobId, input.panel, { overridePerson: '', overrideReason: '' });
}

function setState(ctx: WriteCtx, jobId: JobId, panel: PanelId, fields: PanelStateFields): null {
  const look = needInspection(ctx, jobId, panel);
  const usual = { inspectionId: look.id, panel, substrate: usualSubstrate(panel), felt: 'none' } as const;
  savePanelState(ctx.db, look.id, panel, usual, fields);
  notePanels(ctx, look.id, [panel], ...Object.keys(fields));
  return null;
}

export function needPaintJob(ctx: Pick<WriteCtx, 'db'>, jobId: JobId): PaintJob {
  return paintJob(ctx.db, jobId) ?? refuse('NOT_FOUND', { what: 'job', id: jobId });
}

/** The open inspection of a job, and that the panel named is one of its vehicle. @throws NO_INSPECTION, PANEL_NOT_ON_BODY */
export function needInspection(
  ctx: Pick<WriteCtx, 'db'>,
  jobId: JobId,
  ...panels: readonly PanelId[]
): InspectionRow {
  const job = needPaintJob(ctx, jobId);
  const look = inspectionRow(ctx.db, jobId) ?? refuse('NO_INSPECTION', {});
  const body = panelsOf(job.body);
  const panel = panels.find((p) => !body.includes(p));
  if (panel) refuse('PANEL_NOT_ON_BODY', { panel, body: job.body });
  return look;
}

export function noteChange(ctx: WriteCtx, id: InspectionId, ...fields: readonly string[]): void {
  touchInspection(ctx.db, id);
  ctx.changed(id, ...fields);
}

/** The same, with the panels it was about: the journal names them. */
export function notePanels(
  ctx: WriteCtx,
  id: InspectionId,
  panels: readonly PanelId[],
  ...fields: readonly string[]
): void {
  for (const panel of panels) ctx.changed(`panel/${id}/${panel}`);
  noteChange(ctx, id, ...fields);
}
