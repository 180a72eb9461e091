import { isWorkLine, LINE_KINDS } from '../shared/bill.ts';
import { whollyCredited } from './heldMoney.ts';

/** True of a document `i` that is about a job `j`, alone or with others. */
const OF_JOB = `(i.job_id = j.id OR i.id IN (SELECT invoice_id FROM billed_job WHERE job_id = j.id))`;

/** True of a collective invoice `i` of which credit notes took all that a job `j` had on it. */
const JOB_CREDITED = `(i.job_id IS NULL AND (SELECT sum(shown) = 0 AND max(shown) > 0 FROM (
    SELECT json_extract(k.totals, '$.lineShownMinor[' || l.key || ']') AS shown
    FROM invoice k JOIN json_each(k.bill, '$.lines') l
    WHERE (k.id = i.id OR (k.of_invoice_id = i.id AND k.number IS NOT NULL)) AND l.value ->> 'ofJob' = j.id)) IS TRUE)`;

/** True of an invoice `i` that is about a job `j` and asks for something still. */
const STANDS = `(${OF_JOB} AND i.kind = 'invoice' AND NOT ${whollyCredited('i')} AND NOT ${JOB_CREDITED})`;

/** True of a job `j` with an issued invoice that stands, for whatever. */
export const INVOICED = `EXISTS (SELECT 1 FROM invoice i WHERE ${STANDS} AND i.number IS NOT NULL)`;

const WORK_KINDS = LINE_KINDS.filter((what) => isWorkLine({ what }));
const listed = (kinds: readonly string[]): string => kinds.map((kind) => `'${kind}'`).join(', ');

/** What partial invoices of a job `j` ask for after their credit notes; null where none stands. */
export const PARTLY_BILLED = `(SELECT nullif(sum(k.to_pay_minor), 0) FROM invoice i
  JOIN invoice k ON k.number IS NOT NULL AND (k.id = i.id OR k.of_invoice_id = i.id)
  WHERE i.job_id = j.id AND i.kind = 'partial')`;

/** How many halves of the work an invoice `i` bills: both, one where two payers split it, none with goods or a fee. */
const HALVES = `(SELECT CASE WHEN total(l.value ->> 'what' = 'share') > 0 THEN 1
    WHEN total(l.value ->> 'what' IN (${listed(WORK_KINDS)}) OR l.value ->> 'quoted' IS NOT NULL) > 0 THEN 2 ELSE 0 END
  FROM json_each(i.bill, '$.lines') l)`;

/** True of a job `j` whose work is billed wholly by invoices `i` that stand, of those that are `which`. */
export function workBilled(which: string): string {
  return `(coalesce((SELECT sum(${HALVES}) FROM invoice i WHERE ${STANDS} AND ${which}), 0) >= 2)`;
}
