import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import { utilizationOf } from '../figures/rules/utilization.ts';
import { refuse } from '../shared/errors.ts';
import type { BayId, JobId, PersonId } from '../shared/ids.ts';
import type { CellJobRow, CellJobsView } from '../shared/views/figures.ts';
import type { BayRecord } from './bayRecord.ts';
import { baysSetup, EVER } from './baysSetup.ts';
import {
  type DayRange,
  type HoursFrame,
  hoursFrame,
  openHours,
  placeRecord,
  shiftsOf,
} from './hoursFrame.ts';
import { inHandOf } from './inHandOf.ts';

type Asked = DayRange & { readonly bayId: BayId | null; readonly personId: PersonId | null };

/**
 * The jobs behind one cell of the bay hours, most minutes first. Each has its own minutes in the open hours of the bay
 * (or the shift of the person): two cars at once have the same minute each, so the jobs may come to more than the cell.
 * @throws NOT_FOUND where the bay or the technician is not there
 */
export function cellJobs(ctx: ReadCtx, asked: Asked): CellJobsView {
  // The hours also show a cell of somebody who had left by then.
  const frame = hoursFrame(ctx, asked, baysSetup(ctx.db, EVER));
  const { name, open, records } = placeOf(ctx, frame, asked);
  const { fromMin, toMin } = frame.span;
  const facts = factsOf(ctx, [...new Set(records.map((r) => r.jobId))]);
  const jobs = [...Map.groupBy(records, (r) => r.jobId)].flatMap(([jobId, of]): CellJobRow[] => {
    const { availableMin: _, idleMin: __, ...parts } = utilizationOf(placeRecord(open, of), fromMin, toMin);
    const job = facts.get(jobId);
    return job && minutesOf(parts) > 0 ? [{ ...job, ...parts }] : [];
  });
  return { name, jobs: jobs.toSorted((a, b) => minutesOf(b) - minutesOf(a) || a.jobNumber - b.jobNumber) };
}

type Parts = Pick<CellJobRow, 'attendedMin' | 'cureMin' | 'waitingMin' | 'blockedMin'>;
function minutesOf(parts: Parts): number {
  return parts.attendedMin + parts.cureMin + parts.waitingMin + parts.blockedMin;
}

function placeOf(
  ctx: ReadCtx,
  frame: HoursFrame,
  asked: Asked,
): {
  readonly name: string;
  readonly open: ReturnType<typeof openHours>;
  readonly records: readonly BayRecord[];
} {
  const who = frame.setup.technicians.find((t) => t.personId === asked.personId);
  if (who) {
    const recordsOf = inHandOf(ctx.db, frame.records, ctx.now);
    return { name: who.name, open: shiftsOf(who, frame), records: recordsOf(who.personId) };
  }
  const bay = frame.setup.bays.find((b) => b.bayId === asked.bayId);
  if (!bay)
    return asked.personId === null
      ? refuse('NOT_FOUND', { what: 'bay', id: asked.bayId ?? '' })
      : refuse('NOT_FOUND', { what: 'person', id: asked.personId });
  const records = frame.records.filter((r) => r.bayId === bay.bayId);
  return { name: bay.name, open: openHours(bay, frame), records };
}

type Facts = Pick<CellJobRow, 'jobId' | 'jobNumber' | 'customer' | 'makeModel'>;
function factsOf(ctx: ReadCtx, jobIds: readonly JobId[]): ReadonlyMap<JobId, Facts> {
  const rows = allRows<Facts>(
    ctx.db,
    `SELECT j.id AS jobId, j.number AS jobNumber, c.name AS customer, v.make_model AS makeModel
     FROM json_each(:jobIds) a JOIN job j ON j.id = a.value JOIN customer c ON c.id = j.customer_id
     JOIN vehicle v ON v.id = j.vehicle_id`,
    { jobIds: JSON.stringify(jobIds) },
  );
  return new Map(rows.map((r) => [r.jobId, r]));
}
