import { oneRow, tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Minor } from '../shared/units.ts';
import type { MoneyFiguresView, MoneySums } from '../shared/views/figuresMoney.ts';
import { type Span, wearOf } from './jobSums.ts';
import { type Hand, type Labour, labourCosts } from './labourCost.ts';

const WHICH = 'j.redo_of_job_id IS NOT NULL AND j.collected_ms >= :fromMs AND j.collected_ms < :toMs';
const REDONE = `SELECT count(*) AS jobs,
    coalesce(sum((SELECT sum(h.worked_ms) FROM job_hand h WHERE h.job_id = j.id)), 0) AS workedMs
  FROM job j INDEXED BY job_redo WHERE ${WHICH}`;
const TOOK = `SELECT s.drawn_minor, s.uses FROM job j INDEXED BY job_redo CROSS JOIN job_sum s ON s.job_id = j.id WHERE ${WHICH}`;
const HANDS = `SELECT j.number, h.person_id, h.worked_ms, h.first_ms / 60000, h.last_ms / 60000, j.number
  FROM job j INDEXED BY job_redo CROSS JOIN job_hand h ON h.job_id = j.id WHERE ${WHICH}`;

/**
 * What redone work cost: material with the wear of pads and towels, and hours at what they cost. Where that is not known,
 * an hour lost costs what an hour brought in the range before labour; where that was a loss, nothing.
 */
export function warrantyOf(db: ReadDb, span: Span, total: MoneySums): MoneyFiguresView['warranty'] {
  type Row = { readonly jobs: number; readonly workedMs: number };
  const { jobs, workedMs } = oneRow<Row>(db, REDONE, span) ?? { jobs: 0, workedMs: 0 };
  const worn = wearOf(db);
  const materialMinor = tuples<readonly [number, string]>(db, TOOK, span).reduce(
    (sum, [drawnMinor, uses]) => sum + drawnMinor + worn(uses),
    0,
  ) as Minor;
  const { labourMinor, unknownMs } = labourOf(db, span);
  const brought = Math.max(0, total.netMinor - total.materialMinor);
  const unknown = total.workedMin === 0 ? 0 : Math.round((unknownMs * brought) / (total.workedMin * 60_000));
  return {
    ...{ jobs, workedMin: Math.floor(workedMs / 60_000), materialMinor },
    labourMinor: labourMinor as Minor,
    costMinor: (materialMinor + labourMinor + unknown) as Minor,
  };
}

function labourOf(db: ReadDb, span: Span): Labour {
  const cost = labourCosts(db);
  const sum = { labourMinor: 0, unknownMs: 0 };
  for (const hand of tuples<Hand>(db, HANDS, span)) {
    const { labourMinor, unknownMs } = cost(hand);
    sum.labourMinor += labourMinor;
    sum.unknownMs += unknownMs;
  }
  return sum;
}
