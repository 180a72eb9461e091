import { allowedIn } from '../bookings/rules/jobStates.ts';
import { cureMissingMin, recordedClashes } from '../bookings/rules/workTime.ts';
import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { BayId, CustomerId, JobId, PersonId, StageId, VehicleId } from '../shared/ids.ts';
import { localDayOf } from '../shared/time.ts';
import type { EpochMin, EpochMs } from '../shared/units.ts';
import type {
  CarRecordView,
  HandFacts,
  HoursView,
  JobCustomerView,
  JobVehicleView,
  JobView,
  OverrideView,
  StagePlaceView,
  StageView,
  WorkConflict,
} from '../shared/views/bookings.ts';
import { jobMoneyOf } from './billingJob.ts';
import { stageViewsOf } from './jobStages.ts';
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
  | 'planBasis'
  | 'arrivedMs'
  | 'readyMs'
  | 'collectedMs'
  | 'endedMs'
  | 'endReason'
  | 'createdMs'
  | 'revision'
> &
  Omit<JobView['promise'], 'bold' | 'likelyMin' | 'late'> & {
    readonly customerId: CustomerId;
    readonly payerId: CustomerId | null;
    readonly vehicleId: VehicleId;
    readonly bold: number;
    readonly stoppedMs: number | null;
    readonly redoId: JobId | null;
    readonly redoNumber: number | null;
    readonly inspectionCount: number;
    readonly likelyMin: EpochMin | null;
  };

const JOB = `SELECT j.id, j.number, j.state, j.purpose, j.wish, j.ceiling_minor AS ceilingMinor, j.ceiling_min AS ceilingMin,
    j.wanted_by_min AS wantedByMin, j.plan_basis AS planBasis, j.arrived_ms AS arrivedMs, j.ready_ms AS readyMs,
    j.collected_ms AS collectedMs, j.ended_ms AS endedMs, j.end_reason AS endReason, j.created_ms AS createdMs,
    j.revision, j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin, j.promise_ppm AS promisedPpm, j.bold,
    j.customer_id AS customerId, j.payer_id AS payerId, j.vehicle_id AS vehicleId, j.stopped_ms AS stoppedMs,
    r.id AS redoId, r.number AS redoNumber,
    (SELECT count(*) FROM inspection i WHERE i.job_id = j.id) AS inspectionCount,
    (SELECT max(p.dwell_end_min) FROM placement p JOIN job_stage s ON s.id = p.stage_id
      WHERE p.job_id = j.id AND s.state <> 'dropped') AS likelyMin
  FROM job j LEFT JOIN job r ON r.id = j.redo_of_job_id WHERE j.id = :jobId`;
const CUSTOMER = 'SELECT id, name, phone, email FROM customer WHERE id = :id';
const VEHICLE = `SELECT id, body, make_model AS makeModel, colour, year, plate, vin, hardness FROM vehicle WHERE id = :id`;
const RECORDS = `SELECT r.id, r.kind, r.at_ms AS atMs, r.late_min AS lateMin, r.mileage, r.mileage_unit AS mileageUnit,
    r.key_count AS keyCount, r.belongings, r.damage, r.pictures_record AS picturesRecord,
    r.pictures_publish AS picturesPublish, r.agreed_by AS agreedBy, r.agreed_way AS agreedWay, r.strokes, r.note,
    p.id AS byId, p.name AS byName
  FROM car_record r LEFT JOIN person p ON p.id = r.person_id WHERE r.job_id = :jobId ORDER BY r.at_ms, r.id`;
const OVERRIDES = `SELECT o.rule, p.name AS by, o.reason, o.at_ms AS atMs, o.panels
  FROM job_override o JOIN person p ON p.id = o.person_id WHERE o.job_id = :jobId ORDER BY o.at_ms, o.rowid`;
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
  const { customerId, payerId, vehicleId, bold, stoppedMs, redoId, redoNumber, ...own } = row;
  const { dropOffMin, pickUpMin, promisedPpm, likelyMin, ...facts } = own;
  const promise = { dropOffMin, pickUpMin, promisedPpm, bold: bold === 1, likelyMin, late: false };
  return {
    ...facts,
    customer: customerOf(ctx.db, customerId) ?? refuse('NOT_FOUND', { what: 'customer', id: customerId }),
    payer: payerId === null ? null : customerOf(ctx.db, payerId),
    vehicle:
      oneRow<JobVehicleView>(ctx.db, VEHICLE, { id: vehicleId }) ??
      refuse('NOT_FOUND', { what: 'vehicle', id: vehicleId }),
    promise: { ...promise, late: isLate(row, ctx.now) },
    hours: hoursOf(stages),
    money: jobMoneyOf(ctx.db, row.id, localDayOf(ctx.now, shopOf(ctx.db).zone)),
    stages,
    records: recordsOf(ctx.db, row.id),
    overrides: overridesOf(ctx.db, row.id),
    conflicts: conflictsOf(ctx, row.number, stages),
    allows: allowedIn(row.state),
    stoppedHalfWay: stoppedMs !== null,
    redoOf: redoId !== null && redoNumber !== null ? { id: redoId, number: redoNumber } : null,
  };
}

/** What the strip says of the jobs in hand. Jobs that do not exist are left out. */
export function handFacts(ctx: ReadCtx, input: { readonly jobIds: readonly JobId[] }): readonly HandFacts[] {
  const known = input.jobIds.filter((id) =>
    oneRow(ctx.db, 'SELECT 1 AS yes FROM job WHERE id = :id', { id }),
  );
  return known.map((jobId) => {
    const job = jobView(ctx, { jobId });
    return {
      jobId,
      number: job.number,
      state: job.state,
      customer: job.customer.name,
      vehicle: job.vehicle.makeModel,
      colour: job.vehicle.colour,
      year: job.vehicle.year,
      dropOffMin: job.promise.dropOffMin,
      pickUpMin: job.promise.pickUpMin,
      promisedPpm: job.promise.promisedPpm,
      late: job.promise.late,
      p20Min: job.hours.p20Min,
      p50Min: job.hours.p50Min,
      p80Min: job.hours.p80Min,
      quotedMinor: job.money.quotedMinor,
      owedMinor: job.money.owedMinor,
    };
  });
}

/** A promise is late when it has passed unkept, or the board expects the end of the work after it. */
export function isLate(job: Pick<JobRow, 'state' | 'pickUpMin' | 'likelyMin'>, nowMs: number): boolean {
  if (job.pickUpMin === null || !['booked', 'here', 'inWork'].includes(job.state)) return false;
  return job.pickUpMin * 60_000 < nowMs || (job.likelyMin ?? 0) > job.pickUpMin;
}

function customerOf(db: ReadDb, id: CustomerId): JobCustomerView | null {
  return oneRow<JobCustomerView>(db, CUSTOMER, { id }) ?? null;
}

/** Attended minutes of all stages. The range is the sum of the stages' own: wider than independent cars would give. */
function hoursOf(stages: readonly StageView[]): HoursView {
  const kept = stages.filter((s) => s.state !== 'dropped' && s.crew > 0);
  const sum = (pick: (s: StageView) => number): number => Math.round(kept.reduce((t, s) => t + pick(s), 0));
  const left = (s: StageView): number =>
    s.state === 'done' ? 0 : Math.max(0, s.p50Min - s.attendedMs / 60_000);
  return {
    p20Min: sum((s) => s.p20Min),
    p50Min: sum((s) => s.p50Min),
    p80Min: sum((s) => s.p80Min),
    workedMin: Math.round(stages.reduce((t, s) => t + s.attendedMs, 0) / 60_000),
    leftMin: sum(left),
  };
}

function recordsOf(db: ReadDb, jobId: JobId): CarRecordView[] {
  type Row = Omit<CarRecordView, 'damage' | 'strokes' | 'picturesRecord' | 'picturesPublish' | 'by'> & {
    readonly damage: string;
    readonly strokes: string;
    readonly picturesRecord: number;
    readonly picturesPublish: number;
    readonly byId: PersonId | null;
    readonly byName: string | null;
  };
  return allRows<Row>(db, RECORDS, { jobId }).map(({ byId, byName, ...row }) => ({
    ...row,
    damage: JSON.parse(row.damage),
    strokes: JSON.parse(row.strokes),
    picturesRecord: row.picturesRecord === 1,
    picturesPublish: row.picturesPublish === 1,
    by: byId !== null && byName !== null ? { id: byId, name: byName } : null,
  }));
}

function overridesOf(db: ReadDb, jobId: JobId): OverrideView[] {
  type Row = Omit<OverrideView, 'panels'> & { readonly panels: string };
  return allRows<Row>(db, OVERRIDES, { jobId }).map((o) => ({ ...o, panels: JSON.parse(o.panels) }));
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

const ALSO = `SELECT w.id, w.stage_id AS stageId, w.person_id AS personId, w.start_ms AS startMs, w.end_ms AS endMs,
    j.number, p.name FROM stage_work w JOIN job_stage s ON s.id = w.stage_id JOIN job j ON j.id = s.job_id
    JOIN person p ON p.id = w.person_id
  WHERE w.person_id = :personId AND w.start_ms < :toMs AND ifnull(w.end_ms, :now) > :fromMs`;

function conflictsOf(ctx: ReadCtx, number: number, stages: readonly StageView[]): WorkConflict[] {
  type Also = Parameters<typeof recordedClashes>[0][number] & { number: number; name: string };
  const found: WorkConflict[] = [];
  for (const s of stages) {
    const overMin = Math.floor(s.attendedMs / 60_000) - s.p80Min;
    if (s.state !== 'dropped' && s.crew > 0 && overMin > 0)
      found.push({ kind: 'overrun', stage: s.kind, overMin });
    if (s.crew === 0 && s.startedMs !== null && s.doneMs !== null) {
      const missingMin = cureMissingMin(s.startedMs, s.dwellMin, s.doneMs);
      if (missingMin > 0) found.push({ kind: 'cureCutShort', missingMin });
    }
  }
  const work = stages.flatMap((s) => s.work);
  for (const personId of new Set(work.map((w) => w.person.id))) {
    const own = work.filter((w) => w.person.id === personId);
    const fromMs = Math.min(...own.map((w) => w.startMs));
    const toMs = Math.max(...own.map((w) => w.endMs ?? ctx.now)) + 1;
    const all = allRows<Also>(ctx.db, ALSO, { personId, fromMs, toMs, now: ctx.now as EpochMs });
    for (const { first, second } of recordedClashes(all, ctx.now)) {
      const pair = all.filter((w) => w.id === first.id || w.id === second.id);
      const other = pair.find((w) => w.number !== number) ?? pair[0];
      if (!other || !pair.some((w) => w.number === number)) continue;
      found.push({
        kind: 'twoAtOnce',
        person: { id: personId, name: other.name },
        otherJobNumber: other.number,
      });
    }
  }
  return found;
}
