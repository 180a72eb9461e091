/** True of a job `j` with an issued invoice that stands, for whatever. */
export const INVOICED =
  'EXISTS (SELECT 1 FROM billed_share b WHERE b.job_id = j.id AND b.issued = 1 AND b.stands = 1)';

/** What partial invoices of a job `j` ask for after their credit notes; null where none stands. */
export const PARTLY_BILLED = `(SELECT nullif(sum(k.to_pay_minor), 0) FROM invoice i
  JOIN invoice k ON k.number IS NOT NULL AND (k.id = i.id OR k.of_invoice_id = i.id)
  WHERE i.job_id = j.id AND i.kind = 'partial')`;

const sharePpm = (which: string): string =>
  `(SELECT total(b.share_ppm) FROM billed_share b WHERE b.job_id = j.id AND b.stands = 1${which})`;

/** How much of the work of a job `j` issued invoices that stand bill, in millionths. */
export const BILLED_PPM = sharePpm(' AND b.issued = 1');

/** True of a job `j` whose work is billed wholly by issued invoices that stand. */
export const WORK_BILLED = `(${BILLED_PPM} >= 1000000)`;

/** The same, drafts among them. */
export const WORK_DRAFTED = `(${sharePpm('')} >= 1000000)`;
