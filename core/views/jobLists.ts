import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import { foldText, phoneKey } from '../people/rules/names.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';
import type { EpochMin } from '../shared/units.ts';
import type { JobList, JobRow, JobSort, JobsPage } from '../shared/views/jobList.ts';
import { plateKey } from '../vehicles/rules/plate.ts';
import { INVOICED, PARTLY_BILLED } from './billedWork.ts';
import { WORK_TO_BILL } from './billingLists.ts';
import { isLate } from './jobFacts.ts';
import { owedOf } from './jobOwed.ts';
import { LIKELY_MIN, PROMISE } from './promiseFacts.ts';

const OPEN = `j.state IN ('enquiry','quoted','booked','here','inWork','ready')`;
const OWES = owedOf('j.id');

/** What each list holds, as SQL over `job j`. */
const LISTS: Readonly<Record<JobList, string>> = {
  open: OPEN,
  quoted: `j.state IN ('enquiry','quoted')`,
  finished: `j.state = 'collected'`,
  toBill: `j.id IN (SELECT job_id FROM job_unbilled) AND ${WORK_TO_BILL}`,
  unpaid: `(${INVOICED} OR ${PARTLY_BILLED} IS NOT NULL) AND ${OWES} > 0`,
  ended: `j.state IN ('cancelled','noShow')`,
};
const SORTS: Readonly<Record<JobSort, string>> = {
  promise: 'j.pick_up_min IS NULL, j.pick_up_min, j.number',
  number: 'j.number DESC',
  customer: 'c.name COLLATE NOCASE, j.number DESC',
  dropOff: 'j.drop_off_min IS NULL, j.drop_off_min, j.number',
};

const FIND = `(:ids IS NULL OR j.id IN (SELECT value FROM json_each(:ids)))`;
const FROM = `FROM job j JOIN customer c ON c.id = j.customer_id JOIN vehicle v ON v.id = j.vehicle_id`;
const STAGE_NOW = `SELECT s.id FROM job_stage s WHERE s.job_id = j.id AND s.state IN ('inWork','paused','planned')
    AND s.kind <> 'handover' ORDER BY s.state = 'inWork' DESC, s.state = 'paused' DESC, s.seq LIMIT 1`;
const PAGE = `WITH page AS (SELECT j.id AS jobId, (${STAGE_NOW}) AS stageId ${FROM} WHERE :where`;
const COLUMNS = `j.id, j.number, j.state, j.purpose, c.name AS customer, v.make_model AS makeModel, v.body, v.plate,
    n.kind AS stage, n.state AS stageState, n.panels AS stagePanels, ${PROMISE},
    (SELECT json_group_array(DISTINCT d.panel) FROM stage_panel d WHERE d.stage_id = n.id) AS panelsDone,
    ${LIKELY_MIN} AS likelyMin,
    (SELECT o.to_pay_minor FROM quote q JOIN quote_option o ON o.quote_id = q.id
      AND o.letter = coalesce(q.accepted_letter, 'A') WHERE q.job_id = j.id AND q.state <> 'replaced'
      ORDER BY q.state = 'accepted' DESC, q.version DESC LIMIT 1) AS quotedMinor, ${OWES} AS owedMinor`;

type Row = Omit<JobRow, 'panelsDone' | 'panelsInWork' | 'late' | 'bold' | 'forVisit'> & {
  readonly bold: number;
  readonly forVisit: number;
  readonly panelsDone: string;
  readonly stagePanels: string | null;
  readonly likelyMin: EpochMin | null;
};
type Where = { readonly sql: string; readonly params: Readonly<Record<string, unknown>> };
type Ask = {
  readonly list: JobList | null;
  readonly search: string;
  readonly sort: JobSort;
  readonly offset: number;
  readonly limit: number;
};

/** A page of a list, with how many fit in all and how long every list is. */
export function jobsPage(ctx: ReadCtx, input: Ask): JobsPage {
  const sql = `${input.list === null ? '1' : LISTS[input.list]} AND ${FIND}`;
  const where = {
    sql,
    params: { ids: input.search === '' ? null : JSON.stringify(found(ctx, input.search)) },
  };
  const rows = rowsOf(ctx, where, { order: SORTS[input.sort], offset: input.offset, limit: input.limit });
  const total =
    oneRow<{ n: number }>(ctx.db, `SELECT count(*) AS n ${FROM} WHERE ${sql}`, where.params)?.n ?? 0;
  return { rows, total, counts: countsOf(ctx) };
}

const WORDS = `SELECT j.id, j.number, c.name || ' ' || v.make_model || ' ' || j.wish AS words, v.plate_key AS plate,
    c.phone_key AS phone ${FROM}`;

/** Fewest digits by which somebody is looked for by telephone. */
const LEAST = 3;

/**
 * Jobs whose number, name, vehicle, wish, plate or telephone holds what was typed, whatever its case or accents:
 * SQLite itself knows upper and lower case of plain letters only.
 */
function found(ctx: ReadCtx, search: string): string[] {
  type Words = { id: string; number: number; words: string; plate: string; phone: string };
  const wanted = foldText(search);
  const plate = plateKey(search);
  const digits = /\p{L}/u.test(search) ? '' : phoneKey(search).replace(/^0+/u, '');
  const number = /^\d+$/.test(search) ? Number(search) : null;
  return allRows<Words>(ctx.db, WORDS)
    .filter(
      (w) =>
        w.number === number ||
        foldText(w.words).includes(wanted) ||
        (plate !== '' && w.plate.includes(plate)) ||
        (digits.length >= LEAST && w.phone.includes(digits)),
    )
    .map((w) => w.id);
}

/** All jobs of a customer or a vehicle, newest first. */
export function jobsOf(
  ctx: ReadCtx,
  input: { readonly customerId?: CustomerId | undefined; readonly vehicleId?: VehicleId | undefined },
): JobsPage {
  const sql =
    '(j.customer_id = :customerId OR :customerId IS NULL) AND (j.vehicle_id = :vehicleId OR :vehicleId IS NULL)';
  const params = { customerId: input.customerId ?? null, vehicleId: input.vehicleId ?? null };
  const rows = rowsOf(ctx, { sql, params }, { order: 'j.number DESC', offset: 0, limit: 200 });
  return { rows, total: rows.length, counts: countsOf(ctx) };
}

function rowsOf(
  ctx: ReadCtx,
  where: Where,
  page: { readonly order: string; readonly offset: number; readonly limit: number },
): JobRow[] {
  const text = `${PAGE.replace(':where', where.sql)} ORDER BY ${page.order} LIMIT :limit OFFSET :offset)
    SELECT ${COLUMNS} FROM page JOIN job j ON j.id = page.jobId JOIN customer c ON c.id = j.customer_id
    JOIN vehicle v ON v.id = j.vehicle_id LEFT JOIN job_stage n ON n.id = page.stageId ORDER BY ${page.order}`;
  const params = { ...where.params, limit: page.limit, offset: page.offset };
  return allRows<Row>(ctx.db, text, params).map((row) => asRow(row, ctx.now));
}

function asRow({ stagePanels, likelyMin, ...row }: Row, nowMs: number): JobRow {
  return {
    ...row,
    bold: row.bold === 1,
    forVisit: row.forVisit === 1,
    late: isLate({ state: row.state, pickUpMin: row.pickUpMin, likelyMin }, nowMs),
    panelsDone: JSON.parse(row.panelsDone),
    panelsInWork: row.stageState === 'inWork' && stagePanels !== null ? JSON.parse(stagePanels) : [],
  };
}

function countsOf(ctx: ReadCtx): Readonly<Record<JobList, number>> {
  const sums = Object.entries(LISTS).map(([list, sql]) => `sum(${sql}) AS ${list}`);
  const row = oneRow<Record<JobList, number | null>>(ctx.db, `SELECT ${sums.join(', ')} FROM job j`);
  const count = (list: JobList): number => row?.[list] ?? 0;
  return {
    open: count('open'),
    quoted: count('quoted'),
    finished: count('finished'),
    toBill: count('toBill'),
    unpaid: count('unpaid'),
    ended: count('ended'),
  };
}
