import type { ReadCtx } from '../context.ts';
import { mondayOf } from '../figures/rules/monday.ts';
import type { MondayFacts } from '../figures/rules/mondayFacts.ts';
import { localDayOf } from '../shared/time.ts';
import type { Ppm } from '../shared/units.ts';
import type { PromiseAtRisk } from '../shared/views/desk.ts';
import type { MondayView } from '../shared/views/monday.ts';
import { driftFacts, freeBayMinutes, latelyOf } from '../views/mondayBays.ts';
import {
  acceptedFacts,
  billFacts,
  overdueFacts,
  quoteFacts,
  requestRows,
  worthOf,
} from '../views/mondayMoney.ts';
import { stockFacts } from '../views/mondayStock.ts';
import { shopOf } from '../views/shop.ts';
import { deskRisks, WORKED_OUT } from './deskRisks.ts';

/** The five things worth doing this week, from one snapshot of the whole shop. @throws SHOP_NOT_SET_UP */
export function mondayView(ctx: ReadCtx): MondayView {
  return mondayOf(mondayFacts(ctx));
}

function mondayFacts(ctx: ReadCtx): MondayFacts {
  const { zone, currency } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const lately = latelyOf(ctx, today, zone);
  const stock = stockFacts(ctx, zone);
  const risks = deskRisks(ctx);
  const requests = requestRows(ctx.db, today);
  const jobs = [...stock.jobIds, ...risks.map((r) => r.jobId), ...requests.map((r) => r.jobId)];
  const worth = worthOf(ctx.db, [...new Set(jobs)], lately.jobMinor);
  const wished = requests.map((r) => ({
    ...r,
    minutes: r.minutes ?? lately.jobMin,
    worthMinor: worth(r.jobId),
  }));
  return {
    today,
    currency,
    promises: risks.map((risk, i) => promiseFacts(risk, worth(risk.jobId), i < WORKED_OUT)),
    padsToWash: stock.pads(worth),
    stockStops: stock.stops(worth),
    overdue: overdueFacts(ctx.db, today),
    toBill: billFacts(ctx.db, lately.jobMinor),
    quotes: quoteFacts(ctx.db, today),
    accepted: acceptedFacts(ctx.db, ctx.now, today),
    idle: {
      freeMin: freeBayMinutes(ctx.db, today, zone),
      wantedMin: wished.reduce((sum, r) => sum + r.minutes, 0),
      requests: wished,
      perBayHourMinor: lately.perBayHourMinor,
    },
    drift: driftFacts(ctx.db, today, zone, lately.perHourMinor),
  };
}

/**
 * A job without work on the board, or one whose time is over, is not going to be ready by itself. Where no way out was
 * tried, nothing is known to be saved.
 */
function promiseFacts(
  risk: PromiseAtRisk,
  worthMinor: number,
  tried: boolean,
): MondayFacts['promises'][number] {
  const best = risk.remedies[0];
  const nowPpm = risk.nowPpm ?? (0 as Ppm);
  return {
    ...{ jobId: risk.jobId, jobNumber: risk.number, customer: risk.customer, worthMinor },
    pickUpMin: risk.pickUpMin,
    stands: risk.reason.kind === 'passed' ? 'passed' : risk.nowPpm === null ? 'noWork' : 'open',
    nowPpm,
    bestPpm: tried ? (best?.ppm ?? null) : nowPpm,
    remedy: tried ? (best?.kind ?? null) : 'untried',
  };
}
