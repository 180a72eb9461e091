import { type Calendar, openBetween } from '../bays/rules/calendar.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { PastJob, PastStage } from '../figures/rules/whatIfAsks.ts';
import { isoWeekday, localDayOf, minuteOfDayAt } from '../shared/time.ts';
import type { Purpose } from '../shared/views/bookings.ts';
import type { BayKind, Skill, StageKind } from '../shared/vocabulary.ts';
import { marginRows } from './margin.ts';

type Range = { readonly fromMs: number; readonly toMs: number };
type JobRow = {
  readonly id: string;
  readonly purpose: Purpose;
  readonly createdMs: number;
  readonly arrivedMs: number;
  readonly readyMs: number;
  readonly collectedMs: number;
  readonly dropOffMin: number | null;
  readonly pickUpMin: number | null;
};
type StageRow = {
  readonly jobId: string;
  readonly kind: StageKind;
  readonly bayKinds: string;
  readonly skill: Skill;
  readonly crew: number;
  readonly splittable: number;
  readonly p50Min: number;
  readonly dwellMin: number;
  readonly startedMs: number | null;
  readonly doneMs: number;
  /** Minutes of all people, as recorded, and at usual pace; null = no time was recorded. */
  readonly workedMin: number | null;
  readonly usualMin: number | null;
};

const CAME = `FROM job j WHERE j.state = 'collected' AND j.collected_ms >= :fromMs AND j.collected_ms < :toMs
  AND j.arrived_ms IS NOT NULL AND j.ready_ms IS NOT NULL`;

/** How many jobs the record has for a what-if, by kind, most first. */
export function finishedByPurpose(
  db: ReadDb,
  range: Range,
): readonly { readonly purpose: Purpose; readonly jobs: number }[] {
  return allRows(
    db,
    `SELECT j.purpose, count(*) AS jobs ${CAME} GROUP BY j.purpose ORDER BY jobs DESC, j.purpose`,
    range,
  );
}

/** When the first job was written down, in ms; null = none yet. */
export function firstAskedMs(db: ReadDb): number | null {
  return allRows<{ ms: number | null }>(db, 'SELECT min(created_ms) AS ms FROM job')[0]?.ms ?? null;
}

/**
 * Jobs collected in the range, with all their finished stages: hours as worked, at usual pace; the open minutes a car
 * stood before each, whatever it stood for; money before tax. A redo takes time and brings nothing: what it cost is
 * with the job it repeats.
 */
export function pastJobs(db: ReadDb, range: Range, open: Calendar, zone: string): readonly PastJob[] {
  const rows = allRows<JobRow>(
    db,
    `SELECT j.id, j.purpose, j.created_ms AS createdMs, j.arrived_ms AS arrivedMs, j.ready_ms AS readyMs,
       j.collected_ms AS collectedMs, j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin
     ${CAME} ORDER BY j.collected_ms, j.id`,
    range,
  );
  const stages = Map.groupBy(stageRows(db, range), (s) => s.jobId);
  const brought = new Map<string, ReturnType<typeof marginRows>[number]>(
    marginRows(db, range.fromMs, range.toMs).map((m) => [m.jobId, m]),
  );
  return rows.map((row) => {
    const money = brought.get(row.id);
    return {
      ...jobOf(row, stages.get(row.id) ?? [], open, zone),
      netMinor: money?.netMinor ?? 0,
      materialMinor: money?.materialMinor ?? 0,
    };
  });
}

function stageRows(db: ReadDb, range: Range): readonly StageRow[] {
  return allRows<StageRow>(
    db,
    `SELECT s.job_id AS jobId, s.kind, s.bay_kinds AS bayKinds, s.skill, s.crew, s.splittable, s.p50_min AS p50Min,
       s.dwell_min AS dwellMin, s.started_ms AS startedMs, s.done_ms AS doneMs,
       sum(w.end_ms - w.start_ms) / 60000.0 AS workedMin,
       sum((w.end_ms - w.start_ms) * coalesce(t.speed_ppm, 1000000) / 1000000.0) / 60000.0 AS usualMin
     FROM job_stage s LEFT JOIN stage_work w ON w.stage_id = s.id AND w.end_ms IS NOT NULL
       LEFT JOIN technician t ON t.person_id = w.person_id
     WHERE s.state = 'done' AND s.done_ms IS NOT NULL AND s.job_id IN (SELECT j.id ${CAME})
     GROUP BY s.id ORDER BY s.job_id, s.seq`,
    range,
  );
}

function jobOf(
  row: JobRow,
  rows: readonly StageRow[],
  open: Calendar,
  zone: string,
): Omit<PastJob, 'netMinor' | 'materialMinor'> {
  const min = (ms: number): number => ms / 60_000;
  const day = localDayOf(row.createdMs, zone);
  const stages = stagesOf(row, rows, open);
  const worked = (s: StageRow): number => (s.crew > 0 ? (s.workedMin ?? 0) : 0);
  const promised = row.dropOffMin === null || row.pickUpMin === null ? null : [row.dropOffMin, row.pickUpMin];
  return {
    purpose: row.purpose,
    weekday: isoWeekday(day),
    minuteOfDay: minuteOfDayAt(row.createdMs, zone),
    leadMin: Math.max(0, min(row.arrivedMs - row.createdMs)),
    stayMin: Math.max(0, min(row.readyMs - row.arrivedMs)),
    fetchMin: Math.max(0, min(row.collectedMs - row.readyMs)),
    stages,
    workMin: rows.reduce((sum, s) => sum + worked(s) / Math.max(1, s.crew), 0),
    handsMin: rows.reduce((sum, s) => sum + worked(s), 0),
    cureMin: rows.reduce((sum, s) => sum + cureMin(s, open), 0),
    promisedMin: promised ? openBetween(open, promised[0] ?? 0, promised[1] ?? 0) : null,
    tookMin: openBetween(open, min(row.arrivedMs), min(row.readyMs)),
  };
}

/** A stage's own length without anybody: what cures by itself, after hands or alone. */
function selfMin(s: StageRow): number {
  return s.dwellMin + (s.crew === 0 ? s.p50Min : 0);
}

/** Open minutes in which a coat cured: from the start of what nobody attends, else from the end of the work. */
function cureMin(s: StageRow, open: Calendar): number {
  const from = (s.crew === 0 ? (s.startedMs ?? s.doneMs) : s.doneMs) / 60_000;
  return openBetween(open, from, from + selfMin(s));
}

function stagesOf(row: JobRow, rows: readonly StageRow[], open: Calendar): readonly PastStage[] {
  let freeMin = row.arrivedMs / 60_000;
  let restMin = 0;
  return rows.map((s) => {
    const doneMin = s.doneMs / 60_000;
    const startMin = (s.startedMs ?? s.doneMs) / 60_000;
    const handsMin = s.crew === 0 ? 0 : (s.workedMin ?? s.p50Min) / s.crew;
    const pauseMin = openBetween(open, freeMin, startMin) + restMin;
    // What a stage stood open beyond its own work is a pause too, before the next one.
    restMin = s.crew === 0 ? 0 : Math.max(0, openBetween(open, startMin, doneMin) - handsMin);
    freeMin = s.crew === 0 ? startMin + selfMin(s) : doneMin + s.dwellMin;
    return {
      kind: s.kind,
      kinds: JSON.parse(s.bayKinds) as readonly BayKind[],
      skill: s.skill,
      crew: s.crew,
      labourMin: s.crew === 0 ? s.p50Min : (s.usualMin ?? s.p50Min) / s.crew,
      dwellMin: s.dwellMin,
      pauseMin,
      splittable: s.splittable === 1,
    };
  });
}
