import type { WriteCtx } from '../../context.ts';
import { panelsOf } from '../../shared/bodies.ts';
import type { SetAside } from '../../shared/catalogue/bookingsInputs.ts';
import { refuse } from '../../shared/errors.ts';
import type { EpochMs } from '../../shared/units.ts';
import type { OverrideRule } from '../../shared/views/bookings.ts';
import type { PanelId } from '../../shared/vocabulary.ts';
import { sandingAgreed } from '../../views/sandingAgreed.ts';
import { hasOrder, orderBreaches } from '../rules/stageOrder.ts';
import { cureMissingMin } from '../rules/workTime.ts';
import type { JobRecord } from '../store/jobs.ts';
import { addOverride } from '../store/records.ts';
import { panelsDoneOf, type StageRecord, type StageStep, stagesOf } from '../store/stages.ts';
import { bodyOf } from './needs.ts';

/**
 * What is sanded off does not come back: each panel needs its owner's consent when work on it begins.
 * @throws SANDING_NOT_AGREED
 */
export function checkSanding(ctx: WriteCtx, stage: StageRecord): void {
  if (stage.kind !== 'sand') return;
  const agreed = sandingAgreed(ctx.db, stage.jobId);
  const panel = stage.panels.find((p) => !agreed.includes(p));
  if (panel) refuse('SANDING_NOT_AGREED', { panel, level: 'sanded' });
}

/**
 * What comes first on the panels that are still to be done. A named person may set a rule aside that they were told of.
 * @throws STAGE_ORDER for the first rule that is broken and not set aside; no panels named = the whole car
 */
export function checkOrder(ctx: WriteCtx, job: JobRecord, stage: StageRecord, aside?: SetAside): void {
  if (!hasOrder(stage.kind)) return;
  const body = bodyOf(ctx.db, job.vehicleId);
  const done = panelsDoneOf(ctx.db, stage.jobId);
  const stages = stagesOf(ctx.db, stage.jobId).map((s) => ({
    ...s,
    // Of a cure that runs, checkCures says when it ends.
    state: s.crew === 0 && s.state === 'inWork' ? ('done' as const) : s.state,
    panelsDone: done.get(s.id) ?? [],
  }));
  const all = panelsOf(body);
  const open = stage.panels.length === 0 ? all : stage.panels.filter((p) => !done.get(stage.id)?.includes(p));
  for (const { rule, panels } of orderBreaches(stage.kind, open, stages)) {
    const named = panels.length === all.length ? [] : panels;
    if (!setAside(ctx, stage, aside, { rule, panels: named }))
      refuse('STAGE_ORDER', { rule, panels: named, stage: stage.kind, body });
  }
}

/**
 * A coating that still cures is left alone: nothing is begun on the car, nor is the cure called done before its time.
 * @throws CURE_RUNS with when the first of these cures ends that lacks time, unless that is set aside
 */
export function checkCures(
  ctx: WriteCtx,
  stage: StageRecord,
  cures: readonly StageStep[],
  aside?: SetAside,
): void {
  for (const { crew, state, startedMs, dwellMin } of cures) {
    if (crew > 0 || state !== 'inWork' || startedMs === null) continue;
    if (cureMissingMin(startedMs, dwellMin, ctx.now) === 0) continue;
    const cureEndsAtMs = (startedMs + dwellMin * 60_000) as EpochMs;
    if (!setAside(ctx, stage, aside, { rule: 'cureUntouched', panels: [] }))
      refuse('CURE_RUNS', { cureEndsAtMs });
  }
}

type Broken = { readonly rule: OverrideRule; readonly panels: readonly PanelId[] };

/** Notes down that a named person sets aside a rule that they were told of; false where nobody did. */
function setAside(ctx: WriteCtx, stage: StageRecord, aside: SetAside | undefined, broken: Broken): boolean {
  const by = ctx.actor?.personId;
  if (by === undefined || !aside?.rules.includes(broken.rule)) return false;
  addOverride(ctx.db, {
    ...{ id: ctx.newId<string>(), jobId: stage.jobId, stageId: stage.id },
    ...broken,
    ...{ reason: aside.reason, personId: by, atMs: ctx.now },
  });
  return true;
}
