import { lastAtOrBelow } from '../bays/rules/calendar.ts';
import { daysBetween } from '../bays/rules/hours.ts';
import { ageingOf } from '../billing/rules/owed.ts';
import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { type Brought, moneySums, sharesOf } from '../figures/rules/moneySums.ts';
import { periodsOf } from '../figures/rules/periods.ts';
import { bandsByPrice, bandsByWait } from '../figures/rules/quoteBands.ts';
import type { PersonId } from '../shared/ids.ts';
import { addLocalDays, instantOf, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { Minor } from '../shared/units.ts';
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
  const jobs = jobsBrought(ctx.db, span, zone);
  const total = moneySums(jobs);
  const answered = quotesAnswered(ctx.db, { ...span, today });
  return {
    ...range,
    currency,
    total,
    byKind: [...Map.groupBy(jobs, (j) => j.purpose)]
      .map(([key, of]) => ({ key, name: '', ...moneySums(of) }))
      .toSorted(byMargin),
    byTechnician: technicians(ctx.db, jobs),
    ...overTime(range, zone, jobs),
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

function technicians(db: ReadDb, jobs: readonly JobBrought[]): readonly MoneyRow<PersonId | ''>[] {
  const names = new Map(
    allRows<{ id: PersonId; name: string }>(db, 'SELECT id, name FROM person').map((p) => [p.id, p.name]),
  );
  const [unclocked, by] = [[] as JobBrought[], new Map<PersonId, Brought[]>()];
  const give = (personId: PersonId, of: Brought): void => {
    const all = by.get(personId);
    if (all) all.push(of);
    else by.set(personId, [of]);
  };
  for (const job of jobs) {
    const [first, ...others] = job.worked;
    if (!first) unclocked.push(job);
    else if (others.length === 0) give(first.personId, job);
    else for (const share of sharesOf(job, job.worked)) give(share.personId, share);
  }
  const rows = [...by].map(([key, of]) => ({ key, name: names.get(key) ?? '', ...moneySums(of) }));
  const nobody = { key: '' as const, name: '', ...moneySums(unclocked) };
  return [...rows.toSorted(byMargin), ...(unclocked.length > 0 ? [nobody] : [])];
}

function overTime(
  range: DayRange,
  zone: string,
  jobs: readonly JobBrought[],
): Pick<MoneyFiguresView, 'by' | 'overTime'> {
  const by = localDaysBetween(range.fromDay, range.toDay) < BY_WEEK_DAYS ? 'week' : 'month';
  const periods = periodsOf(daysBetween(range.fromDay, range.toDay, zone), by);
  const ends = periods.map((p) => p.endMin);
  const of = Map.groupBy(jobs, (j) => lastAtOrBelow(ends, Math.floor(j.collectedMs / 60_000)) + 1);
  return {
    by,
    overTime: periods.map(({ day, toDay }, i) => ({ day, toDay, ...moneySums(of.get(i) ?? []) })),
  };
}

/** Of the jobs of each customer in the range, all but their very first are again. */
const RETURNING = `SELECT coalesce(sum(jobs), 0) AS jobs, coalesce(sum(jobs - (firstMs >= :fromMs)), 0) AS again, count(*) AS customers
  FROM (SELECT count(*) FILTER (WHERE collected_ms >= :fromMs AND collected_ms < :toMs) AS jobs, min(collected_ms) AS firstMs
    FROM job WHERE redo_of_job_id IS NULL GROUP BY customer_id) WHERE jobs > 0`;

function returning(db: ReadDb, span: Span): MoneyFiguresView['returning'] {
  return oneRow<MoneyFiguresView['returning']>(db, RETURNING, span) ?? { jobs: 0, again: 0, customers: 0 };
}
