import type { ReadCtx } from '../../context.ts';
import { panelsOf } from '../../shared/bodies.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import type { ShopSettings } from '../../shared/settings.ts';
import type { EstimateView, PanelPlanView } from '../../shared/views/estimate.ts';
import type { InspectionView, PanelInspectionView, PictureView } from '../../shared/views/paint.ts';
import { isMachineStage, type Level, type PanelId, type StageState } from '../../shared/vocabulary.ts';
import { newestEstimate } from '../../views/estimates.ts';
import { filmTaken, type TakenRow } from '../../views/filmTaken.ts';
import {
  foundView,
  type InspectionRows,
  inspectionRow,
  inspectionRows,
  type PaintJob,
  paintJob,
  readingsSince,
  type StageDoneRow,
  stagesOf,
} from '../../views/inspection.ts';
import { picturesOf } from '../../views/pictures.ts';
import { shopOf } from '../../views/shop.ts';
import { takenAt, takenHere } from '../rules/mayCome.ts';
import { type PanelFacts, panelFacts } from '../rules/panelFacts.ts';
import { levelRefusal, sandingRefusal } from '../rules/permit.ts';
import { verdictOf } from '../rules/verdict.ts';
import { budgetView, filmView, knownFromNew, tenth, visitFilms } from './filmHistory.ts';

/** The inspection of a job with every panel of its vehicle, its life budget and earlier visits; null before it began. */
export function inspectionOf(ctx: ReadCtx, input: { readonly jobId: JobId }): InspectionView | null {
  const job = paintJob(ctx.db, input.jobId) ?? refuse('NOT_FOUND', { what: 'job', id: input.jobId });
  const look = inspectionRow(ctx.db, input.jobId);
  if (!look) return null;
  const rules = shopOf(ctx.db).settings.paint;
  const noted = inspectionRows(ctx.db, look.id);
  const taken = filmTaken(ctx.db, job.vehicleId);
  const plan = newestEstimate(ctx.db, input.jobId);
  const pictures = picturesOf(ctx.db, input.jobId);
  const stages = stagesOf(ctx.db, input.jobId);
  return {
    inspectionId: look.id,
    revision: look.revision,
    jobId: job.jobId,
    vehicleId: job.vehicleId,
    body: job.body,
    hardness: job.hardness,
    startedMs: look.startedMs,
    by: look.by,
    readingCount: noted.readings.length,
    readSince: plan === null ? 0 : readingsSince(ctx.db, look.id, plan.madeMs),
    usualPhase: stages.some((s) => isMachineStage(s.kind) && BEGUN.includes(s.state)) ? 'after' : 'before',
    thinTenthUm: tenth(rules.thinTenthUm),
    refinishedTenthUm: tenth(rules.refinishedTenthUm),
    panels: panelsOf(job.body).map((panel) =>
      panelView(panel, {
        job,
        noted,
        taken,
        plan,
        pictures,
        stages,
        rules,
        historyKnown: knownFromNew(ctx, job),
      }),
    ),
    earlier: visitFilms(ctx, job.vehicleId, taken, rules).filter((v) => v.jobId !== job.jobId),
  };
}

type Gathered = {
  readonly job: PaintJob;
  readonly noted: InspectionRows;
  readonly taken: readonly TakenRow[];
  readonly plan: EstimateView | null;
  readonly pictures: readonly PictureView[];
  readonly stages: readonly StageDoneRow[];
  readonly rules: ShopSettings['paint'];
  readonly historyKnown: boolean;
};

function panelView(panel: PanelId, g: Gathered): PanelInspectionView {
  const booked = takenAt(g.taken, panel, g.job.jobId);
  const facts = panelFacts(panel, g.noted, booked, g.rules);
  const plan = g.plan?.panels.find((p) => p.panel === panel);
  const held = plan ? heldBy(facts, plan) : null;
  const planned = held === null ? (plan?.removalTenthUm ?? 0) : 0;
  const level = held === null ? (plan?.level ?? 'leave') : 'washOnly';
  return {
    panel,
    substrate: facts.substrate,
    readable: facts.readable,
    felt: facts.felt,
    film: filmView(facts.film),
    filmAfter: filmView(facts.filmAfter),
    readings: g.noted.readings
      .filter((r) => r.panel === panel)
      .map((r) => ({
        id: r.id,
        tenthUm: r.tenthUm,
        at: r.x !== null && r.y !== null ? { x: r.x, y: r.y } : null,
        phase: r.phase,
      })),
    findings: findingViews(facts, planned, level),
    budget: budgetView(facts, booked.earlier, takenHere(booked) || planned, g.historyKnown),
    level,
    held,
    safeTenthUm: facts.safe === null ? null : tenth(facts.safe),
    pictures: g.pictures.filter((p) => p.panel === panel),
    progress: progressOf(panel, g.stages),
    override: facts.override,
    consent: facts.consent,
  };
}

/** What readings say against a plan that was made before they were taken. */
function heldBy(facts: PanelFacts, plan: PanelPlanView): PanelInspectionView['held'] {
  const { level, removalTenthUm: plannedTenthUm } = plan;
  const thin = facts.film?.thin ?? false;
  const { override, consent, safe, sandable } = facts;
  if (level !== 'sanded') return levelRefusal({ level, plannedTenthUm, safeTenthUm: safe, thin, override });
  const sandTenthUm = plan.sanding?.highTenthUm ?? null;
  return sandingRefusal({ sandTenthUm, plannedTenthUm, limitTenthUm: sandable, thin, consent, override });
}

function findingViews(facts: PanelFacts, planned: number, level: Level): PanelInspectionView['findings'] {
  const safe = level === 'sanded' ? facts.sandable : facts.safe;
  const thin = (facts.film?.thin ?? false) && facts.override === null;
  return facts.findings.map((f) => {
    const depth = { low: f.lowTenthUm, high: f.highTenthUm };
    return {
      id: f.id,
      ...foundView(f),
      note: f.note,
      ...verdictOf(f.defect, depth, planned, safe, thin),
    };
  });
}

const BEGUN: readonly StageState[] = ['inWork', 'paused', 'done'];

/** How far the machine stages on a panel are. */
function progressOf(panel: PanelId, stages: readonly StageDoneRow[]): PanelInspectionView['progress'] {
  const states = stages
    .filter((s) => isMachineStage(s.kind) && s.state !== 'dropped')
    .filter((s) => (JSON.parse(s.panels) as string[]).includes(panel))
    .map((s) => ((JSON.parse(s.panelsDone) as string[]).includes(panel) ? 'done' : s.state));
  if (states.length === 0) return null;
  if (states.every((s) => s === 'done')) return 'done';
  return states.every((s) => s === 'planned') ? 'planned' : 'inWork';
}
