import { tuples } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { AnsweredQuote } from '../figures/rules/quoteBands.ts';
import type { LocalDay } from '../shared/units.ts';

/**
 * The quote that each job's customer agreed to, which stands whatever was offered after it; else the newest that was sent.
 * Of several options what was agreed to, else the cheapest. Most quotes are answered: an index by their state only costs.
 */
const ANSWERED = `SELECT coalesce(
    (SELECT o.to_pay_minor FROM quote_option o WHERE o.quote_id = q.id AND o.letter = q.accepted_letter),
    (SELECT min(o.to_pay_minor) FROM quote_option o WHERE o.quote_id = q.id), 0) AS askedMinor,
    (q.sent_ms - j.created_ms) / 86400000 AS waitedDays, q.state = 'accepted' AS accepted
  FROM quote q NOT INDEXED CROSS JOIN job j ON j.id = q.job_id
  WHERE q.sent_ms >= :fromMs AND q.sent_ms < :toMs
    AND (q.state IN ('accepted', 'declined') OR (q.state = 'sent' AND q.valid_until_day < :today))
    AND (q.state = 'accepted' OR NOT EXISTS (SELECT 1 FROM quote n WHERE n.job_id = q.job_id
      AND (n.state = 'accepted' OR (n.version > q.version AND n.sent_ms IS NOT NULL))))`;

/** Quotes sent in `[fromMs, toMs)` that were agreed to, declined, or have lapsed by `today`; open ones say nothing yet. */
export function quotesAnswered(
  db: ReadDb,
  range: { readonly fromMs: number; readonly toMs: number; readonly today: LocalDay },
): readonly AnsweredQuote[] {
  return tuples<readonly [number, number, 0 | 1]>(db, ANSWERED, range).map(
    ([askedMinor, waitedDays, accepted]) => ({ askedMinor, waitedDays, accepted: accepted === 1 }),
  );
}
