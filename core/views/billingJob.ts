import { isLapsed } from '../billing/rules/lapse.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { QuoteState } from '../shared/views/billing.ts';
import type { JobMoney } from '../shared/views/billingReports.ts';
import { PARTLY_BILLED, WORK_BILLED } from './billedWork.ts';
import { HELD_FOR_JOB, LEFT_OF_PAYMENT } from './heldMoney.ts';
import { invoicedOf, laidOf, owedOf } from './jobOwed.ts';

type Row = {
  readonly state: QuoteState | null;
  readonly validUntilDay: LocalDay | null;
  readonly quotedMinor: Minor | null;
  readonly depositMinor: Minor | null;
  readonly invoicedMinor: Minor | null;
  readonly paidMinor: Minor | null;
  readonly owedMinor: Minor | null;
  readonly partlyMinor: Minor | null;
};

const JOB_MONEY = `WITH standing AS (
    SELECT q.id, q.state, q.valid_until_day, q.accepted_letter FROM quote q
    WHERE q.job_id = :jobId AND q.state <> 'replaced'
    ORDER BY q.state = 'accepted' DESC, q.version DESC LIMIT 1)
  SELECT (SELECT state FROM standing) AS state, (SELECT valid_until_day FROM standing) AS validUntilDay,
    (SELECT o.to_pay_minor FROM standing s JOIN quote_option o ON o.quote_id = s.id
      AND o.letter = coalesce(s.accepted_letter, 'A')) AS quotedMinor,
    ${HELD_FOR_JOB} AS depositMinor,
    ${invoicedOf(':jobId')} AS invoicedMinor,
    (SELECT sum(minor) FROM (
      SELECT ${laidOf(':jobId')} AS minor
      UNION ALL
      SELECT ${LEFT_OF_PAYMENT} FROM payment p WHERE p.kind = 'deposit' AND p.job_id = :jobId)) AS paidMinor,
    ${owedOf(':jobId')} AS owedMinor,
    (SELECT ${PARTLY_BILLED} FROM job j WHERE j.id = :jobId AND NOT ${WORK_BILLED}) AS partlyMinor`;

/** Money of one job. The standing quote is the accepted one, else the newest; its first option when not answered. */
export function jobMoneyOf(db: ReadDb, jobId: JobId, today: LocalDay): JobMoney {
  const row = oneRow<Row>(db, JOB_MONEY, { jobId });
  return {
    quotedMinor: row?.quotedMinor ?? null,
    depositMinor: row?.depositMinor ?? null,
    invoicedMinor: row?.invoicedMinor ?? null,
    paidMinor: row?.paidMinor ?? null,
    owedMinor: row?.owedMinor ?? null,
    partlyMinor: row?.partlyMinor ?? null,
    quoteState: standing(row?.state ?? null, row?.validUntilDay ?? null, today),
  };
}

/** A quote that was declined stands no more than one whose day is past. */
function standing(state: QuoteState | null, until: LocalDay | null, today: LocalDay): JobMoney['quoteState'] {
  if (state === null || until === null) return 'none';
  if (state === 'declined' || state === 'replaced' || isLapsed(state, until, today)) return 'lapsed';
  return state;
}
