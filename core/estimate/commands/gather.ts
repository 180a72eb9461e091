import type { ReadCtx } from '../../context.ts';
import { takenAt } from '../../paint/rules/mayCome.ts';
import { panelFacts } from '../../paint/rules/panelFacts.ts';
import { refuse } from '../../shared/errors.ts';
import type { InspectionId, JobId } from '../../shared/ids.ts';
import { DEFAULT_STEPS, type MachineStep, STEP_ROLES, type StepRole } from '../../shared/machineStep.ts';
import { localDayOf } from '../../shared/time.ts';
import type { LocalDay, Minor } from '../../shared/units.ts';
import { PPM } from '../../shared/units.ts';
import type { EstimateAsked, EstimateBasis, StatedCondition, Wish } from '../../shared/views/estimate.ts';
import type { Shop } from '../../shared/views/shop.ts';
import { type Material, type PaintHardness, STAGE_KINDS, type StageKind } from '../../shared/vocabulary.ts';
import { bayKindsOf, materialCosts, ownSteps } from '../../views/estimateInputs.ts';
import { filmTaken } from '../../views/filmTaken.ts';
import { inspectionRow, inspectionRows, type PaintJob, paintJob } from '../../views/inspection.ts';
import { finishedKinds } from '../../views/jobFinished.ts';
import { rateOn, shopOf, taxOn } from '../../views/shop.ts';
import type { JobKnowledge } from '../rules/hours.ts';
import { panelSizes } from '../rules/panels.ts';
import type { WorkRules } from '../rules/panelWork.ts';
import type { EstimateCase } from '../rules/plan.ts';
import { assumedFelt, assumedFindings, UNSEEN_VARIANCE } from '../rules/provisional.ts';
import { STAGE_SHAPE } from '../rules/stageShape.ts';
import type { PanelCase, WholeJob } from '../rules/stages.ts';
import { jobAfterSpots } from '../rules/testSpot.ts';
import { calibrationOf } from './calibration.ts';
import { conditionOf, spotEvidence } from './spots.ts';

/** What an estimate is made for, before the shop's own rates and rules come in. */
export type Wanted = { readonly wish: Wish; readonly asked: EstimateAsked };

export type Gathered = Wanted & {
  readonly c: EstimateCase;
  readonly shop: Shop;
  readonly basis: EstimateBasis;
  readonly inspectionId: InspectionId | null;
  readonly spots: number;
};

type Vehicle = Pick<PaintJob, 'body' | 'lengthMm' | 'widthMm' | 'heightMm' | 'hardness'>;

/** A vehicle that nobody has looked at: findings as such cars usually have them. */
export function gatherUnseen(ctx: ReadCtx, vehicle: Vehicle, purpose: string, wanted: Wanted): Gathered {
  const condition = wanted.asked.condition ?? 'unknown';
  const panels = panelSizes(vehicle).map((size) => assumedPanel(size, condition));
  const calibration = calibrationOf(ctx);
  const knowledge: JobKnowledge = {
    technician: null,
    condition: conditionOf(panels, purpose),
    jobLog: 0,
    jobVariance: calibration.jobVariance + UNSEEN_VARIANCE,
    tried: new Map(),
  };
  const job = wholeJob(ctx, wanted, vehicle.hardness, true);
  const c = { ...shopSide(ctx), panels, job, calibration, knowledge, finished: new Map() };
  return { ...wanted, c, shop: shopOf(ctx.db), basis: 'provisional', inspectionId: null, spots: 0 };
}

function assumedPanel(size: PanelCase['size'], condition: StatedCondition): PanelCase {
  return {
    size,
    substrate: 'steel',
    readable: true,
    findings: assumedFindings(condition),
    felt: assumedFelt(condition),
    thin: false,
    refinished: false,
    safe: null,
    sandable: null,
    consent: null,
    readings: 0,
    override: null,
  };
}

/** A job as inspected, with every test spot on it. @throws NO_INSPECTION */
export function gatherInspected(ctx: ReadCtx, jobId: JobId, wanted: Wanted): Gathered {
  const vehicle = needJob(ctx, jobId);
  const look = inspectionRow(ctx.db, jobId) ?? refuse('NO_INSPECTION', {});
  const noted = inspectionRows(ctx.db, look.id);
  const shop = shopOf(ctx.db);
  const taken = filmTaken(ctx.db, vehicle.vehicleId);
  const panels = panelSizes(vehicle).map((size): PanelCase => {
    const f = panelFacts(size.panel, noted, takenAt(taken, size.panel, jobId), shop.settings.paint);
    const findings = f.findings.map((x) => ({ ...x, depth: { low: x.lowTenthUm, high: x.highTenthUm } }));
    const film = { thin: f.film?.thin ?? false, refinished: f.film?.refinished ?? false };
    return {
      ...film,
      size,
      substrate: f.substrate,
      readable: f.readable,
      findings,
      felt: f.felt,
      safe: f.safe,
      sandable: f.sandable,
      consent: f.consent,
      readings: f.before.length,
      override: f.override,
    };
  });
  const side = shopSide(ctx);
  const calibration = calibrationOf(ctx);
  const condition = conditionOf(panels, vehicle.purpose);
  const evidence = spotEvidence(noted.spots, panels, vehicle.hardness, side.rules, calibration, condition);
  const after = jobAfterSpots(evidence.spots, calibration);
  const job = { ...wholeJob(ctx, wanted, vehicle.hardness, false), passFactors: evidence.passFactors };
  const knowledge = { technician: null, condition, ...after };
  const c = { ...side, panels, job, calibration, knowledge, finished: finishedKinds(ctx.db, jobId) };
  const basis = evidence.spots.length > 0 ? 'testSpot' : 'inspected';
  return { ...wanted, c, shop, basis, inspectionId: look.id, spots: evidence.spots.length };
}

export function needJob(ctx: Pick<ReadCtx, 'db'>, jobId: JobId): PaintJob {
  return paintJob(ctx.db, jobId) ?? refuse('NOT_FOUND', { what: 'job', id: jobId });
}

function wholeJob(ctx: ReadCtx, wanted: Wanted, hardness: PaintHardness, unseen: boolean): WholeJob {
  const shop = shopOf(ctx.db);
  const way = shop.settings.estimate;
  return {
    wish: wanted.wish,
    interior: wanted.asked.interior,
    protection: wanted.wish === 'interior' || wanted.wish === 'clean' ? 'none' : wanted.asked.protection,
    hardness,
    two: wanted.asked.two,
    pairPpm: way.pairPpm,
    unseen,
    bayKinds: bayKindsOf(ctx.db, localDayOf(ctx.now, shop.zone)),
    passFactors: {},
    dropUl: way.dropUl,
    dropsPerPad: way.dropsPerPad,
  };
}

/** The shop's way of working, its rates of the day and its material prices. @throws NO_RATE */
function shopSide(ctx: ReadCtx): Pick<EstimateCase, 'rules' | 'rates' | 'materialPrice' | 'priceRule'> {
  const shop = shopOf(ctx.db);
  const day = localDayOf(ctx.now, shop.zone);
  const rate = (kind: StageKind): Minor => rateOn(ctx.db, kind, STAGE_SHAPE[kind].skill, day).hourMinor;
  return {
    rules: workRules(ctx, shop),
    rates: Object.fromEntries(STAGE_KINDS.map((kind) => [kind, rate(kind)])) as Record<StageKind, Minor>,
    materialPrice: materialPrices(ctx, shop, day),
    priceRule: shop.settings.estimate.priceRule,
  };
}

function workRules(ctx: ReadCtx, shop: Shop): WorkRules {
  const way = shop.settings.estimate;
  const own = ownSteps(ctx.db);
  const step = (role: StepRole): MachineStep => own.find((s) => s.role === role) ?? DEFAULT_STEPS[role];
  return {
    sectionAlongMm: way.sectionLengthMm,
    sectionAcrossMm: way.sectionWidthMm,
    overlapPpm: way.overlapPpm,
    cutSpeedMmS: way.cutSpeedMmS,
    refineSpeedMmS: way.refineSpeedMmS,
    cutPasses: way.cutPasses,
    refinePasses: way.refinePasses,
    applyS: way.applySec,
    wipeS: way.wipeAndLookSec,
    cleanS: way.padCleanSec,
    cleanEvery: way.padCleanEverySections,
    steps: Object.fromEntries(STEP_ROLES.map((r) => [r, step(r)])) as Record<StepRole, MachineStep>,
  };
}

/** What a base unit is charged at: cost and markup, with tax where the shop's prices have it. */
function materialPrices(ctx: ReadCtx, shop: Shop, day: LocalDay): Partial<Record<Material, number>> {
  const tax = shop.settings.billing.pricesIncludeTax ? taxOn(ctx.db, 'standard', day).ratePpm / PPM : 0;
  const factor = (1 + shop.settings.estimate.materialMarkupPpm / PPM) * (1 + tax);
  return Object.fromEntries([...materialCosts(ctx.db, day)].map(([m, cost]) => [m, cost * factor]));
}
