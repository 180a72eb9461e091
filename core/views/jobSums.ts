import { allRows, tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import type { Purpose } from '../shared/views/bookings.ts';
import { type Hand, labourCosts, type Worked } from './labourCost.ts';

export type Span = { readonly fromMs: number; readonly toMs: number };

/** A collected job with everything that was redone of it, whenever that was. Minor units; whole minutes for the job. */
export type JobSums = {
  readonly jobId: JobId;
  readonly jobNumber: number;
  readonly purpose: Purpose;
  readonly collectedMs: EpochMs;
  readonly netMinor: number;
  readonly materialMinor: number;
  readonly workedMin: number;
  /** What its hours cost the shop, as far as is known; of `unknownMs` of them it is not. */
  readonly labourMinor: number;
  readonly unknownMs: number;
  /** Who worked on it, by id; nobody without any time. */
  readonly worked: readonly Readonly<Worked>[];
};

/** What was redone of a job is charged to it, also what is redone a second time. */
const REDONE = `WITH RECURSIVE up (id, rootId) AS (
    SELECT id, redo_of_job_id FROM job INDEXED BY job_redo WHERE redo_of_job_id IS NOT NULL
    UNION SELECT u.id, j.redo_of_job_id FROM up u CROSS JOIN job j ON j.id = u.rootId WHERE j.redo_of_job_id IS NOT NULL),
  redone (root, id) AS MATERIALIZED (SELECT r.number, u.id FROM up u CROSS JOIN job r ON r.id = u.rootId
    WHERE r.redo_of_job_id IS NULL AND r.collected_ms >= :fromMs AND r.collected_ms < :toMs)`;

/**
 * Rows of each job `f` collected in `[:fromMs, :toMs)` that is no redo, and of each that was redone of such a one:
 * first the number of the job that they are charged to, then `columns`. In no order.
 */
export function ofFamily(columns: string, joins: string): string {
  return `${REDONE} SELECT f.number, ${columns} FROM job f INDEXED BY job_collected ${joins}
      WHERE f.collected_ms >= :fromMs AND f.collected_ms < :toMs AND f.redo_of_job_id IS NULL
    UNION ALL SELECT r.root, ${columns} FROM redone r CROSS JOIN job f ON f.id = r.id ${joins}`;
}

const SUMS = ofFamily(
  'f.redo_of_job_id IS NULL, f.id, f.purpose, f.collected_ms, s.net_minor, s.drawn_minor, s.uses',
  'LEFT JOIN job_sum s ON s.job_id = f.id',
);
/** Small integers are read quicker than instants and ids. */
const HANDS = ofFamily(
  'h.person_id, h.worked_ms, h.first_ms / 60000, h.last_ms / 60000, f.number',
  'CROSS JOIN job_hand h ON h.job_id = f.id',
);

type Sum = readonly [number, 0 | 1, JobId, Purpose, EpochMs, number | null, number | null, string | null];
type Writable<T> = { -readonly [K in keyof T]: T[K] };
type Made = Writable<Omit<JobSums, 'worked'>> & { readonly worked: Worked[] };

/**
 * Jobs collected in the span: net of issued documents, material at the ledger's cost with the wear of pads and towels,
 * time worked and what it cost. A prepayment invoice and its deduction on the final one cancel out, and what a taxed
 * voucher took off is the job's all the same, so each job's net counts once. A redo is no row of its own: it is charged to
 * the job it repeats.
 */
export function jobSums(db: ReadDb, { fromMs, toMs }: Span): readonly JobSums[] {
  const made = summed(tuples<Sum>(db, SUMS, { fromMs, toMs }), wearOf(db));
  addHands(db, made, { fromMs, toMs });
  const jobs = [...made.values()];
  for (const job of jobs) {
    if (job.worked.length > 1) job.worked.sort((a, b) => (a.personId < b.personId ? -1 : 1));
    let ms = 0;
    for (const { workedMs } of job.worked) ms += workedMs;
    job.workedMin = Math.floor(ms / 60_000);
  }
  return jobs;
}

/** Who worked how long at what cost. */
function addHands(db: ReadDb, made: ReadonlyMap<number, Made>, span: Span): void {
  const cost = labourCosts(db);
  for (const hand of tuples<Hand>(db, HANDS, span)) {
    const job = made.get(hand[0]);
    if (!job || hand[2] === 0) continue;
    const worked = cost(hand);
    job.labourMinor += worked.labourMinor;
    job.unknownMs += worked.unknownMs;
    const before = job.worked.find((w) => w.personId === worked.personId);
    if (!before) job.worked.push(worked);
    else {
      before.workedMs += worked.workedMs;
      before.labourMinor += worked.labourMinor;
      before.unknownMs += worked.unknownMs;
    }
  }
}

/** Each job without its people, made once: ten years have many. */
function summed(rows: readonly Sum[], worn: (uses: string | null) => number): Map<number, Made> {
  const made = new Map<number, Made>();
  const redone: Sum[] = [];
  for (const row of rows) {
    const [number, first, jobId, purpose, collectedMs, net, drawn, uses] = row;
    if (first === 0) redone.push(row);
    else {
      const [netMinor, materialMinor] = [net ?? 0, (drawn ?? 0) + worn(uses)];
      made.set(number, {
        jobId,
        jobNumber: number,
        purpose,
        collectedMs,
        netMinor,
        materialMinor,
        workedMin: 0,
        labourMinor: 0,
        unknownMs: 0,
        worked: [],
      });
    }
  }
  for (const [number, , , , , net, drawn, uses] of redone) {
    const of = made.get(number);
    if (!of) continue;
    of.netMinor += net ?? 0;
    of.materialMinor += (drawn ?? 0) + worn(uses);
  }
  return made;
}

const PRICES = `SELECT i.id, l.last_cost_minor * 1.0 / l.last_cost_qty AS pieceMinor, coalesce(i.uses_per_life, 20) AS usesPerLife
  FROM stock_item i JOIN stock_level l ON l.item_id = i.id WHERE l.last_cost_qty > 0`;

/** What uses of pads and towels wear off at what such a piece last cost: each item's to the nearest unit. */
export function wearOf(db: ReadDb): (uses: string | null) => number {
  type Price = { readonly id: string; readonly pieceMinor: number; readonly usesPerLife: number };
  const prices = new Map(allRows<Price>(db, PRICES).map((p) => [p.id, p]));
  const known = new Map<string | null, number>([
    [null, 0],
    ['{}', 0],
  ]);
  return (uses) => {
    const before = known.get(uses);
    if (before !== undefined) return before;
    const worn = Object.entries(JSON.parse(uses ?? '{}') as Record<string, number>).reduce((sum, [id, n]) => {
      const price = prices.get(id);
      return price ? sum + Math.round((price.pieceMinor * n) / price.usesPerLife) : sum;
    }, 0);
    known.set(uses, worn);
    return worn;
  };
}
