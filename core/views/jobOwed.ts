import { OWED } from './billingLists.ts';

/** What a line of a document `k` asks for with its tax. */
const ASKED = `json_extract(k.totals, '$.lineShownMinor[' || l.key || ']')
  * CASE WHEN json_extract(k.bill, '$.taxIncluded') THEN 1.0 ELSE 1 + json_extract(l.value, '$.tax.ratePpm') / 1e6 END`;

/** The share of a job in what documents `k` of several jobs ask for, by its own lines; 0 where they ask for nothing. */
function shareOf(job: string, which: string): string {
  return `coalesce((SELECT total(CASE WHEN l.value ->> 'ofJob' = ${job} THEN ${ASKED} END) / nullif(total(${ASKED}), 0)
    FROM invoice k JOIN json_each(k.bill, '$.lines') l WHERE ${which}), 0)`;
}

/** Of a document as it stands, and of what its credit notes left of it. */
const ALONE = 'k.id = i.id';
const AFTER_CREDITS = '(k.id = i.id OR (k.of_invoice_id = i.id AND k.number IS NOT NULL))';

/**
 * The sum of an amount over the issued documents `i` of a job: whole of its own, of those with other jobs its share, to
 * the nearest unit. Null without any.
 */
function ofDocuments(
  job: string,
  minor: string,
  from: { readonly which: string; readonly share: string },
): string {
  const { which, share } = from;
  return `(SELECT sum(minor) FROM (
    SELECT ${minor} AS minor FROM invoice i WHERE i.job_id = ${job} AND i.number IS NOT NULL AND ${which}
    UNION ALL
    SELECT CAST(round((${minor}) * ${shareOf(job, share)}) AS INTEGER)
    FROM billed_job b JOIN invoice i ON i.id = b.invoice_id
    WHERE b.job_id = ${job} AND i.number IS NOT NULL AND ${which}))`;
}

/** What the documents of a job ask for, credit notes taken off. `job` is the SQL of its id. */
export function invoicedOf(job: string): string {
  return ofDocuments(job, 'i.to_pay_minor', { which: '1', share: ALONE });
}

/** What was laid on them. What is paid of an invoice for several jobs counts for each by what it asks for. */
export function laidOf(job: string): string {
  const laid = '(SELECT sum(a.amount_minor) FROM allocation a WHERE a.invoice_id = i.id)';
  return ofDocuments(job, laid, { which: "i.kind <> 'credit'", share: AFTER_CREDITS });
}

/** What is still to pay on them, shared in the same way. */
export function owedOf(job: string): string {
  return ofDocuments(job, OWED, { which: "i.kind <> 'credit'", share: AFTER_CREDITS });
}
