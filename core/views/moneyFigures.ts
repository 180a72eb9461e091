import { lastAtOrBelow } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import { ageingOf } from '../billing/rules/owed.ts';
import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { addBrought, moneySums, noTally, sharesOf, type Tally } from '../figures/rules/moneySums.ts';
import { periodsOf } from '../figures/rules/periods.ts';
import { bandsByPrice, bandsByWait } from '../figures/rules/quoteBands.ts';
import type { PersonId } from '../shared/ids.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { Minor } from '../shared/units.ts';
import type { Purpose } from '../shared/views/bookings.ts';
import type { MoneyFiguresView, MoneyRow } from '../shared/views/figuresMoney.ts';
import { owedRows } from './billingLists.ts';
import { creditsHeld, depositsHeld } from './heldMoney.ts';
import type { DayRange } from './hoursFrame.ts';
import type { Span } from './jobSums.ts';
import { type JobBrought, jobsBrought } from './jobsBrought.ts';
import { quotesAnswered } from './quotesAnswered.ts';
import { shopOf } from './shop.ts';
import { warrantyOf } from './warranty.ts';

/** Up to so many days are told by week, more by month. */
const BY_WEEK_DAYS = 100;

/** What the jobs collected in a range brought, by kind, technician and time; what is held and owed now; quotes, redone work, returns. */
export function moneyFigures(ctx: ReadCtx, range: DayRange): MoneyFiguresView {
  const { zone, currency } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const span: Span = {
    fromMs: instantOf(range.fromDay, 0, zone),
    toMs: instantOf(addLocalDays(range.toDay, 1), 0, zone),
  };
  const found = sorted(ctx.db, range, zone, jobsBrought(ctx.db, span, zone));
  const { total } = found;
  const answered = quotesAnswered(ctx.db, { ...span, today });
  return {
    ...range,
    currency,
    ...found,
    now: {
      depositsMinor: sumOf(depositsHeld(ctx.db)),
      creditsMinor: sumOf(creditsHeld(ctx.db)),
      ageing: ageingOf(owedRows(ctx.db, today)),
    },
    quotes: {
      byPrice: bandsByPrice(answered),
      byWait: bandsByWait(answered),
      answered: answered.length,
      accepted: answered.filter((q) => q.accepted).length,
    },
    warranty: warrantyOf(ctx.db, span, total),
    returning: returning(ctx.db, span),
  };
}

function sumOf(held: readonly { readonly heldMinor: Minor }[]): Minor {
  return held.reduce((sum, h) => sum + h.heldMinor, 0) as Minor;
}

function byMargin(a: MoneyRow<string>, b: MoneyRow<string>): number {
  return b.marginMinor - a.marginMinor || a.key.localeCompare(b.key);
}

type Sorted = Pick<MoneyFiguresView, 'total' | 'byKind' | 'byTechnician' | 'by' | 'overTime'>;

/** Each job is added once to all that it belongs to: ten years have many. */
function sorted(db: ReadDb, range: DayRange, zone: string, jobs: readonly JobBrought[]): Sorted {
  const by = localDaysBetween(range.fromDay, range.toDay) < BY_WEEK_DAYS ? 'week' : 'month';
  const periods = periodsOf(daysBetween(range.fromDay, range.toDay, zone), by);
  const ends = periods.map((p) => p.endMin);
  const [total, overTime] = [noTally(), periods.map(noTally)];
  const [kinds, people] = [new Map<Purpose, Tally>(), new Map<PersonId | '', Tally>()];
  for (const job of jobs) {
    addBrought(total, job);
    addBrought(tallyOf(kinds, job.purpose), job);
    const period = overTime[lastAtOrBelow(ends, Math.floor(job.collectedMs / 60_000)) + 1];
    if (period) addBrought(period, job);
    addHands(people, job);
  }
  return {
    total: moneySums(total),
    byKind: [...kinds].map(([key, of]) => ({ key, name: '', ...moneySums(of) })).toSorted(byMargin),
    byTechnician: technicians(db, people),
    by,
    overTime: periods.map(({ day, toDay }, i) => ({ day, toDay, ...moneySums(overTime[i] ?? noTally()) })),
  };
}

function tallyOf<K>(of: Map<K, Tally>, key: K): Tally {
  const before = of.get(key);
  if (before) return before;
  const none = noTally();
  of.set(key, none);
  return none;
}

function addHands(people: Map<PersonId | '', Tally>, job: JobBrought): void {
  const [first, ...others] = job.worked;
  if (!first) addBrought(tallyOf(people, ''), job);
  else if (others.length === 0) addBrought(tallyOf(people, first.personId), job);
  else for (const share of sharesOf(job, job.worked)) addBrought(tallyOf(people, share.personId), share);
}

function technicians(
  db: ReadDb,
  people: ReadonlyMap<PersonId | '', Tally>,
): readonly MoneyRow<PersonId | ''>[] {
  const names = new Map(
    allRows<{ id: PersonId; name: string }>(db, 'SELECT id, name FROM person').map((p) => [p.id, p.name]),
  );
  const rows = [...people].map(([key, of]) => ({
    ...{ key, name: key === '' ? '' : (names.get(key) ?? '') },
    ...moneySums(of),
  }));
  return rows.toSorted((a, b) => Number(a.key === '') - Number(b.key === '') || byMargin(a, b));
}

/** Of the jobs of each customer in the range, all but their very first are again. */
const RETURNING = `SELECT coalesce(sum(jobs), 0) AS jobs, coalesce(sum(jobs - (firstMs >= :fromMs)), 0) AS again, count(*) AS customers
  FROM (SELECT count(*) FILTER (WHERE collected_ms >= :fromMs AND collected_ms < :toMs) AS jobs, min(collected_ms) AS firstMs
    FROM job WHERE redo_of_job_id IS NULL GROUP BY customer_id) WHERE jobs > 0`;

function returning(db: ReadDb, span: Span): MoneyFiguresView['returning'] {
  return oneRow<MoneyFiguresView['returning']>(db, RETURNING, span) ?? { jobs: 0, again: 0, customers: 0 };
}
