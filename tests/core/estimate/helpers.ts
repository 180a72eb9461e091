import { noHistory } from '#core/estimate/rules/learning.ts';
import { panelSizes } from '#core/estimate/rules/panels.ts';
import type { WorkRules } from '#core/estimate/rules/panelWork.ts';
import type { EstimateCase } from '#core/estimate/rules/plan.ts';
import type { PanelCase, WholeJob } from '#core/estimate/rules/stages.ts';
import { depthOf } from '#core/shared/depths.ts';
import { DEFAULT_STEPS } from '#core/shared/machineStep.ts';
import type { Minor } from '#core/shared/units.ts';
import {
  type BodyStyle,
  type Level,
  type Severity,
  STAGE_KINDS,
  type StageKind,
} from '#core/shared/vocabulary.ts';

/** The shop's defaults, written out so that a changed default does not change a test's expectation. */
export const RULES: WorkRules = {
  sectionAlongMm: 500,
  sectionAcrossMm: 500,
  overlapPpm: 500_000,
  cutSpeedMmS: 50,
  refineSpeedMmS: 50,
  cutPasses: 4,
  refinePasses: 4,
  applyS: 15,
  wipeS: 30,
  cleanS: 20,
  cleanEvery: 2,
  steps: DEFAULT_STEPS,
};

export const JOB: WholeJob = {
  wish: 'full',
  interior: false,
  protection: 'sealant',
  hardness: 'medium',
  two: [],
  pairPpm: 1_800_000,
  unseen: false,
  bayKinds: ['wash', 'correction', 'protection', 'yard'],
  passFactors: {},
  dropUl: 200,
  dropsPerPad: 5,
};

export function panelCases(
  body: BodyStyle,
  severity: Severity | null,
  change: Partial<PanelCase> = {},
): PanelCase[] {
  return panelSizes({ body, lengthMm: null, widthMm: null, heightMm: null }).map((size) => ({
    size,
    substrate: 'steel',
    readable: true,
    findings: severity ? [{ defect: 'swirls', severity, depth: depthOf('swirls', severity) }] : [],
    felt: 'light',
    thin: false,
    refinished: false,
    safe: 60,
    sandable: 60,
    consent: null,
    readings: 3,
    override: null,
    ...change,
  }));
}

export function caseOf(change: Partial<EstimateCase> = {}): EstimateCase {
  const calibration = noHistory();
  return {
    panels: panelCases('saloon', 'moderate'),
    job: JOB,
    rules: RULES,
    calibration,
    knowledge: {
      technician: null,
      condition: 'moderate',
      jobLog: 0,
      jobVariance: calibration.jobVariance,
      tried: new Map(),
    },
    finished: new Map(),
    rates: Object.fromEntries(STAGE_KINDS.map((k) => [k, 8500 as Minor])) as Record<StageKind, Minor>,
    materialPrice: {
      heavyCutCompound: 0.004,
      finishingPolish: 0.004,
      mediumCompound: 0.004,
      cuttingPad: 300,
    },
    priceRule: 'mean',
    ...change,
  };
}

export function allAt(c: EstimateCase, level: Level): Level[] {
  return c.panels.map(() => level);
}
