import type { ReadCtx } from '../../context.ts';
import { STAGE_SHAPE } from '../../estimate/rules/stageShape.ts';
import type { Bill } from '../../shared/bill.ts';
import { timesPpm } from '../../shared/money.ts';
import { type LocalDay, type Minor, PPM, type Ppm } from '../../shared/units.ts';
import type { StageRates } from '../../shared/views/estimate.ts';
import { STAGE_KINDS, type StageKind } from '../../shared/vocabulary.ts';
import type { BilledJob } from '../../views/billingParty.ts';
import { stagesDone, wasStopped } from '../../views/billingWork.ts';
import { chargesOn, rateOn, shopOf, taxOn } from '../../views/shop.ts';
import { jobMaterialCost } from '../../views/stockDraws.ts';
import { withCharges } from '../rules/charges.ts';
import { withLabourTax } from '../rules/labourTax.ts';
import { timedLines } from '../rules/workDone.ts';
import { labourTaxOn, lineTaxOn, lineText } from './lines.ts';

/**
 * The bill of a job that nobody agreed a price for: the time worked at the shop's prices of `day`, and the material
 * drawn, to the least that a job costs. Looking at the paint is not billed, as it is not with a quote; nor is work redone under warranty.
 * No lines when there is nothing to bill.
 * @throws NO_RATE · NO_TAX when the shop has none for the day
 */
export function unagreedBill(ctx: ReadCtx, job: BilledJob, day: LocalDay, locale: string): Bill {
  const shop = shopOf(ctx.db);
  const taxIncluded = shop.settings.billing.pricesIncludeTax;
  const done = stagesDone(ctx.db, job.id).filter((s) => s.kind !== 'inspection' && s.workedMin > 0);
  if (job.redo || done.length === 0) return { lines: [], extras: [], taxIncluded };
  const tax = lineTaxOn(ctx, 'standard', day);
  const work = timedLines(done, ratesOn(ctx, day), materialPrice(ctx, job, day), tax, lineText(locale));
  const none = 0 as Ppm;
  const { minimumMinor } = chargesOn(ctx.db, day);
  const charges = { minimumMinor, rushPpm: none, afterHoursPpm: none };
  const charged = wasStopped(ctx.db, job.id) ? work : withCharges(work, charges, tax, lineText(locale));
  const lines = withLabourTax(charged, labourTaxOn(ctx, day));
  return { lines, extras: [], taxIncluded };
}

function ratesOn(ctx: ReadCtx, day: LocalDay): StageRates {
  const rate = (kind: StageKind): Minor => rateOn(ctx.db, kind, STAGE_SHAPE[kind].skill, day).hourMinor;
  return Object.fromEntries(STAGE_KINDS.map((kind) => [kind, rate(kind)])) as StageRates;
}

/** What the job drew, at the ledger's cost with the shop's markup; with tax where its prices have it. */
function materialPrice(ctx: ReadCtx, job: BilledJob, day: LocalDay): Minor {
  const { estimate, billing } = shopOf(ctx.db).settings;
  const taxPpm = billing.pricesIncludeTax ? taxOn(ctx.db, 'standard', day).ratePpm : 0;
  const cost = jobMaterialCost(ctx.db, job.id).totalMinor;
  const net = timesPpm(cost, (PPM + estimate.materialMarkupPpm) as Ppm);
  return timesPpm(net, (PPM + taxPpm) as Ppm);
}
