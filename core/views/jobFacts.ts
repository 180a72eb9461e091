import { allowedAt } from '../bookings/rules/jobStates.ts';
import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { BayId, CustomerId, JobId, StageId, VehicleId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMin } from '../shared/units.ts';
import type {
  JobCustomerView,
  JobVehicleView,
  JobView,
  StagePlaceView,
  StageView,
} from '../shared/views/bookings.ts';
import { jobMoneyOf } from './billingJob.ts';
import { conflictsOf } from './jobConflicts.ts';
import { hoursOf } from './jobHours.ts';
import { overridesOf, recordsOf } from './jobRecords.ts';
import { stageViewsOf } from './jobStages.ts';
import { LIKELY_MIN, PROMISE } from './promiseFacts.ts';
import { shopOf } from './shop.ts';

type JobRow = Pick<
  JobView,
  | 'id'
  | 'number'
  | 'state'
  | 'purpose'
  | 'wish'
  | 'ceilingMinor'
  | 'ceilingMin'
  | 'wantedByMin'
  | 'lateWeight'
  | 'planBasis'
  | 'arrivedMs'
  | 'readyMs'
  | 'collectedMs'
  | 'endedMs'
  | 'endReason'
  | 'createdMs'
  | 'revision'
> &
  Omit<JobView['promise'], 'bold' | 'forVisit' | 'likelyMin' | 'late'> & {
    readonly customerId: CustomerId;
    readonly payerId: CustomerId | null;
    readonly vehicleId: VehicleId;
    readonly bold: number;
    readonly forVisit: number;
    readonly stoppedMs: number | null;
    readonly redoId: JobId | null;
    readonly redoNumber: number | null;
    readonly inspectionCount: number;
    readonly likelyMin: EpochMin | null;
  };

const JOB = `SELECT j.id, j.number, j.state, j.purpose, j.wish, j.ceiling_minor AS ceilingMinor, j.ceiling_min AS ceilingMin,
    j.wanted_by_min AS wantedByMin, j.late_weight AS lateWeight, j.plan_basis AS planBasis, j.arrived_ms AS arrivedMs, j.ready_ms AS readyMs,
    j.collected_ms AS collectedMs, j.ended_ms AS endedMs, j.end_reason AS endReason, j.created_ms AS createdMs,
    j.revision, ${PROMISE},
    j.customer_id AS customerId, j.payer_id AS payerId, j.vehicle_id AS vehicleId, j.stopped_ms AS stoppedMs,
    r.id AS redoId, r.number AS redoNumber,
    (SELECT count(*) FROM inspection i WHERE i.job_id = j.id) AS inspectionCount,
    ${LIKELY_MIN} AS likelyMin
  FROM job j LEFT JOIN job r ON r.id = j.redo_of_job_id WHERE j.id = :jobId`;
const CUSTOMER = 'SELECT id, name, phone, email FROM customer WHERE id = :id';
const VEHICLE = `SELECT id, body, make_model AS makeModel, colour, year, plate, vin, hardness FROM vehicle WHERE id = :id`;
const PLACES = `SELECT l.stage_id AS stageId, l.bay_id AS bayId, b.name AS bay, min(l.start_min) AS startMin,
    max(l.dwell_end_min) AS endMin, json_group_array(json_object('id', p.id, 'name', p.name))
      FILTER (WHERE p.id IS NOT NULL) AS people
  FROM placement l JOIN bay b ON b.id = l.bay_id LEFT JOIN person p ON p.id = l.person_id
  WHERE l.job_id = :jobId GROUP BY l.stage_id ORDER BY startMin`;

/**
 * Everything on one job in one snapshot.
 * @throws NOT_FOUND when there is no such job
 */
export function jobView(ctx: ReadCtx, input: { readonly jobId: JobId }): JobView {
  const row = oneRow<JobRow>(ctx.db, JOB, input) ?? refuse('NOT_FOUND', { what: 'job', id: input.jobId });
  const stages = withPlaces(ctx.db, row.id, stageViewsOf(ctx.db, row.id, ctx.now));
  const { customerId, payerId, vehicleId, bold, forVisit, stoppedMs, redoId, redoNumber, ...own } = row;
  const { dropOffMin, pickUpMin, promisedPpm, likelyMin, ...facts } = own;
  const asked = { dropOffMin, pickUpMin, promisedPpm, likelyMin };
  const promise = { ...asked, bold: bold === 1, forVisit: forVisit === 1 };
  return {
    ...facts,
    customer: customerOf(ctx.db, customerId) ?? refuse('NOT_FOUND', { what: 'customer', id: customerId }),
    payer: payerId === null ? null : customerOf(ctx.db, payerId),
    vehicle:
      oneRow<JobVehicleView>(ctx.db, VEHICLE, { id: vehicleId }) ??
      refuse('NOT_FOUND', { what: 'vehicle', id: vehicleId }),
    promise: { ...promise, late: isLate(row, ctx.now) },
    hours: hoursOf(ctx.db, row.id, stages),
    money: jobMoneyOf(ctx.db, row.id, localDayOf(ctx.now, shopOf(ctx.db).zone)),
    stages,
    records: recordsOf(ctx.db, row.id),
    overrides: overridesOf(ctx.db, row.id),
    conflicts: conflictsOf(ctx, row.number, stages),
    allows: allowedAt(row, ctx.now),
    stoppedHalfWay: stoppedMs !== null,
    redoOf: redoId !== null && redoNumber !== null ? { id: redoId, number: redoNumber } : null,
  };
}

/** A promise is late when it has passed unkept, or the board expects the end of the work after it. */
export function isLate(job: Pick<JobRow, 'state' | 'pickUpMin' | 'likelyMin'>, nowMs: number): boolean {
  if (job.pickUpMin === null || !['booked', 'here', 'inWork'].includes(job.state)) return false;
  return job.pickUpMin * 60_000 < nowMs || (job.likelyMin ?? 0) > job.pickUpMin;
}

function customerOf(db: ReadDb, id: CustomerId): JobCustomerView | null {
  return oneRow<JobCustomerView>(db, CUSTOMER, { id }) ?? null;
}

function withPlaces(db: ReadDb, jobId: JobId, stages: readonly StageView[]): StageView[] {
  type Row = Omit<StagePlaceView, 'people'> & { stageId: StageId; bayId: BayId; people: string };
  const places = new Map(allRows<Row>(db, PLACES, { jobId }).map((row) => [row.stageId, row]));
  return stages.map((s) => {
    const at = places.get(s.id);
    if (!at) return s;
    const { stageId: _stage, people, ...place } = at;
    return { ...s, place: { ...place, people: JSON.parse(people ?? '[]') } };
  });
}
