import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { InspectionId, JobId } from '../shared/ids.ts';
import type { StagePlan } from '../shared/stagePlan.ts';
import type { EpochMs } from '../shared/units.ts';
import type {
  EstimateAsked,
  EstimateBasis,
  EstimateView,
  FactorView,
  LimitView,
  PanelPlanView,
  PriceView,
  Wish,
} from '../shared/views/estimate.ts';

type Row = {
  readonly id: string;
  readonly jobId: JobId;
  readonly version: number;
  readonly basis: EstimateBasis;
  readonly inspectionId: InspectionId | null;
  readonly wish: Wish;
  readonly asked: string;
  readonly panels: string;
  readonly stages: string;
  readonly factors: string;
  readonly limits: string;
  readonly price: string;
  readonly p20Min: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly p95Min: number;
  readonly meanMin: number;
  readonly mu: number;
  readonly sigma: number;
  readonly jobSigma: number;
  readonly gainPpm: number;
  readonly madeMs: EpochMs;
  readonly madeBy: string;
};

const FIELDS = `e.id, e.job_id AS jobId, e.version, e.basis, e.inspection_id AS inspectionId, e.wish, e.asked, e.panels,
  e.stages, e.factors, e.limits, e.price, e.p20_min AS p20Min, e.p50_min AS p50Min, e.p80_min AS p80Min,
  e.p95_min AS p95Min, e.mean_min AS meanMin, e.mu, e.sigma, e.job_sigma AS jobSigma, e.gain_ppm AS gainPpm,
  e.made_ms AS madeMs, coalesce(p.name, '') AS madeBy
  FROM estimate e LEFT JOIN person p ON p.id = e.person_id`;

/** One version of an estimate. */
export function estimateById(db: ReadDb, id: string): EstimateView | null {
  const row = oneRow<Row>(db, `SELECT ${FIELDS} WHERE e.id = :id`, { id });
  return row ? viewOf(row) : null;
}

/** The newest version of a job's estimate. */
export function newestEstimate(db: ReadDb, jobId: JobId): EstimateView | null {
  const row = oneRow<Row>(db, `SELECT ${FIELDS} WHERE e.job_id = :jobId ORDER BY e.version DESC LIMIT 1`, {
    jobId,
  });
  return row ? viewOf(row) : null;
}

const AGREED = `e.id = (SELECT o.estimate_id FROM quote q
  JOIN quote_option o ON o.quote_id = q.id AND o.letter = q.accepted_letter
  WHERE q.job_id = :jobId AND q.state = 'accepted')`;

/** The version that the customer agreed to; null while none is agreed. */
export function agreedEstimate(db: ReadDb, jobId: JobId): EstimateView | null {
  const row = oneRow<Row>(db, `SELECT ${FIELDS} WHERE ${AGREED}`, { jobId });
  return row ? viewOf(row) : null;
}

const PLAN = 'SELECT basis, stages FROM estimate WHERE job_id = :jobId ORDER BY version DESC LIMIT 1';

/** The stages of a job's newest estimate, and what they rest on. */
export function newestStages(db: ReadDb, jobId: JobId): Pick<EstimateView, 'basis' | 'stages'> | null {
  const row = oneRow<Pick<Row, 'basis' | 'stages'>>(db, PLAN, { jobId });
  return row ? { basis: row.basis, stages: JSON.parse(row.stages) as EstimateView['stages'] } : null;
}

/** All versions of a job's estimate, newest first. */
export function estimatesOfJob(db: ReadDb, jobId: JobId): readonly EstimateView[] {
  const sql = `SELECT ${FIELDS} WHERE e.job_id = :jobId ORDER BY e.version DESC`;
  return allRows<Row>(db, sql, { jobId }).map(viewOf);
}

function viewOf(row: Row): EstimateView {
  return {
    id: row.id,
    jobId: row.jobId,
    version: row.version,
    basis: row.basis,
    madeMs: row.madeMs,
    madeBy: row.madeBy,
    inspectionId: row.inspectionId,
    wish: row.wish,
    asked: JSON.parse(row.asked) as EstimateAsked,
    panels: JSON.parse(row.panels) as PanelPlanView[],
    stages: JSON.parse(row.stages) as StagePlan[],
    hours: {
      p20Min: row.p20Min,
      p50Min: row.p50Min,
      p80Min: row.p80Min,
      p95Min: row.p95Min,
      meanMin: row.meanMin,
      mu: row.mu,
      sigma: row.sigma,
      jobSigma: row.jobSigma,
    },
    price: JSON.parse(row.price) as PriceView,
    gainPpm: row.gainPpm,
    limits: JSON.parse(row.limits) as LimitView[],
    factors: JSON.parse(row.factors) as FactorView[],
  };
}
