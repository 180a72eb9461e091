import type { ReadCtx } from '../../context.ts';
import { oneRow } from '../../db/prepared.ts';
import { localDayOf, localDaysBetween } from '../../shared/time.ts';
import type { EpochMs, LocalDay, Minor } from '../../shared/units.ts';
import type { InvoiceRow } from '../../shared/views/billing.ts';
import type { TaxBasis, TaxReport, TaxReportRow } from '../../shared/views/billingReports.ts';
import type { MoneyDesk, ReminderDue } from '../../shared/views/moneyDesk.ts';
import type { Shop } from '../../shared/views/shop.ts';
import {
  invoicePage,
  jobsToBill,
  owedRows,
  paymentsOn,
  takingsOn,
  waitingQuotes,
} from '../../views/billingLists.ts';
import { laidOn, taxesSettled, taxOfInvoices, taxOfUnasked } from '../../views/billingReports.ts';
import { creditsHeld, depositsHeld, tipsHeld } from '../../views/heldMoney.ts';
import { shopOf } from '../../views/shop.ts';
import { vouchersHeld } from '../../views/vouchers.ts';
import { isDepositOver } from '../commands/depositJob.ts';
import { inCash } from '../rules/cash.ts';
import { ageingOf, reminderLevel } from '../rules/owed.ts';
import { partPaid, settlements, taxReport } from '../rules/taxReport.ts';
import { sum } from '../rules/totals.ts';
import { checkPeriod } from './journal.ts';

const SHOWN = 200;

/** The Money place in one snapshot. */
export function readDesk(ctx: ReadCtx): MoneyDesk {
  const shop = shopOf(ctx.db);
  const today = localDayOf(ctx.now, shop.zone);
  const page = { search: '', limit: SHOWN, offset: 0 };
  const open = invoicePage(ctx.db, { ...page, list: 'open' }, today).rows;
  const deposits = depositsHeld(ctx.db).map(({ jobState, ...row }) => ({
    ...row,
    over: isDepositOver(ctx.db, { id: row.jobId, state: jobState }),
  }));
  const inCoins = coinsOf(shop);
  const credits = creditsHeld(ctx.db).map(inCoins);
  const vouchers = vouchersHeld(ctx.db, today);
  const tips = tipsHeld(ctx.db).map(inCoins);
  const takings = takingsOn(ctx.db, today).map((t) => ({ ...t, amountMinor: t.amountMinor as Minor }));
  return {
    today,
    currency: shop.currency,
    ageing: ageingOf(owedRows(ctx.db, today)),
    open,
    payBack: invoicePage(ctx.db, { ...page, list: 'payBack' }, today).rows,
    drafts: invoicePage(ctx.db, { ...page, list: 'draft' }, today).rows,
    toBill: jobsToBill(ctx.db),
    deposits,
    depositsMinor: sum(deposits.map((d) => d.heldMinor)) as Minor,
    credits,
    vouchersMinor: vouchers.heldMinor,
    vouchersOverMinor: vouchers.overMinor,
    tips,
    tipsMinor: sum(tips.map((row) => row.heldMinor)) as Minor,
    creditsMinor: sum(credits.map((c) => c.heldMinor)) as Minor,
    quotes: waitingQuotes(ctx.db, today),
    reminders: remindersDue(ctx, open, shop),
    takings,
    takingsMinor: sum(takings.map((t) => t.amountMinor)) as Minor,
    paymentsToday: paymentsOn(ctx.db, today),
  };
}

/** Held money with what coins make of it. */
function coinsOf(
  shop: Shop,
): <T extends { readonly heldMinor: Minor }>(row: T) => T & { readonly cashMinor: Minor } {
  const { cashStepMinor } = shop.settings.billing;
  return (row) => ({ ...row, cashMinor: inCash(row.heldMinor, cashStepMinor) });
}

function remindersDue(ctx: ReadCtx, open: readonly InvoiceRow[], shop: Shop): ReminderDue[] {
  const { zone, settings } = shop;
  const days = settings.billing.reminderDays;
  return open.flatMap((row) => {
    const sql =
      'SELECT level, at_ms AS atMs FROM reminder WHERE invoice_id = :id ORDER BY level DESC LIMIT 1';
    const last = oneRow<{ level: number; atMs: EpochMs }>(ctx.db, sql, { id: row.id });
    const daysAgo = last ? localDaysBetween(localDayOf(last.atMs, zone), localDayOf(ctx.now, zone)) : 0;
    const sent = { level: last?.level ?? 0, daysAgo };
    const level = row.owedMinor > 0 ? reminderLevel(row.overdueDays, days, sent) : 0;
    if (level === 0 || row.number === null) return [];
    const { customer, owedMinor, overdueDays } = row;
    return [{ invoiceId: row.id, number: row.number, customer, owedMinor, overdueDays, level }];
  });
}

export type PeriodAsk = { readonly fromDay: LocalDay; readonly toDay: LocalDay; readonly basis: TaxBasis };

/**
 * Tax by rate of a period: of documents issued in it, or in proportion to the money that settled documents in it. What
 * asks for nothing counts by payment when it is issued.
 * Prepayment invoices, final invoices and credit notes are summed as they are, so that tax counts once.
 * @throws PERIOD_REVERSED
 */
export function readTaxReport(ctx: ReadCtx, ask: PeriodAsk): TaxReport {
  checkPeriod(ask.fromDay, ask.toDay);
  const head = { ...ask, currency: shopOf(ctx.db).currency };
  if (ask.basis === 'invoice') return taxReport(head, taxOfInvoices(ctx.db, ask.fromDay, ask.toDay));
  return taxReport(head, [...taxOfMoney(ctx, ask), ...taxOfUnasked(ctx.db, ask.fromDay, ask.toDay)]);
}

/** The tax on the money that settled documents; a document paid in parts is counted with the first. */
function taxOfMoney(ctx: ReadCtx, ask: PeriodAsk): TaxReportRow[] {
  const counted = new Set<string>();
  const taxes = taxesSettled(ctx.db, ask.fromDay, ask.toDay);
  return settlements(laidOn(ctx.db, ask.fromDay, ask.toDay)).flatMap((s) => {
    const documents = counted.has(s.invoiceId) ? 0 : 1;
    counted.add(s.invoiceId);
    return (taxes.get(s.invoiceId) ?? []).map(({ invoiceId: _, toPayMinor, ...row }) => {
      const partOf = (minor: number): Minor => partPaid(minor, toPayMinor, s.beforeMinor, s.amountMinor);
      const taxableMinor = partOf(row.taxableMinor);
      const netMinor = row.netMinor === row.taxableMinor ? taxableMinor : partOf(row.netMinor);
      return { ...row, taxableMinor, netMinor, taxMinor: partOf(row.taxMinor), documents };
    });
  });
}
