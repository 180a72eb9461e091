/** True of a job `j` with an issued invoice that stands, for whatever. */
export const INVOICED =
  'EXISTS (SELECT 1 FROM billed_share b WHERE b.job_id = j.id AND b.issued = 1 AND b.stands = 1)';

/** What partial invoices of a job `j` ask for after their credit notes; null where none stands. */
export const PARTLY_BILLED = `(SELECT nullif(sum(k.to_pay_minor), 0) FROM invoice i
  JOIN invoice k ON k.number IS NOT NULL AND (k.id = i.id OR k.of_invoice_id = i.id)
  WHERE i.job_id = j.id AND i.kind = 'partial')`;

/** True of a job `j` whose work is billed wholly by invoices that stand, drafts among them. */
export const WORK_DRAFTED =
  '((SELECT total(b.share_ppm) FROM billed_share b WHERE b.job_id = j.id AND b.stands = 1) >= 1000000)';
