import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import { thingOf } from '../shared/listPrices.ts';
import { currencyDigits } from '../shared/money.ts';
import { localDayOf, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { ChargeRow, RateRow, ShopPage, ShopState } from '../shared/views/shop.ts';
import { listPriceRows } from './listPrices.ts';
import { logoOf } from './logo.ts';
import { CHARGES, packageRows, shopIfSetUp, shopOf, TAX_COLUMNS, taxRow } from './shop.ts';

/** Whether a shop is set up, and how it writes things: what any window may know. */
export function shopState(ctx: ReadCtx): ShopState {
  const shop = shopIfSetUp(ctx.db);
  if (!shop) return { setUp: false };
  const today = localDayOf(ctx.now, shop.zone);
  const { name, zone, currency, locale, filmUnit, volumeUnit, lengthUnit, paper, isDemo, demoDay } = shop;
  return {
    ...{ setUp: true, name, zone, currency, locale, today, isDemo },
    ...{ filmUnit, volumeUnit, lengthUnit, paper },
    currencyDigits: currencyDigits(currency),
    demoAgeDays: demoDay === null ? null : localDaysBetween(demoDay, today),
  };
}

const RATES = `SELECT id, applies, subject, from_day AS fromDay, hour_minor AS hourMinor FROM rate
  ORDER BY CASE applies WHEN 'all' THEN 0 WHEN 'skill' THEN 1 ELSE 2 END, subject, from_day DESC`;
const TAXES = `SELECT ${TAX_COLUMNS} FROM tax_rate
  ORDER BY CASE code WHEN 'standard' THEN 0 ELSE 1 END, code, from_day DESC`;

/** The shop with its rules and every dated row. */
export function shopPage(ctx: ReadCtx): ShopPage {
  const shop = shopOf(ctx.db);
  const today = localDayOf(ctx.now, shop.zone);
  const rates = allRows<RateRow>(ctx.db, RATES);
  const taxes = allRows<Parameters<typeof taxRow>[0]>(ctx.db, TAXES).map(taxRow);
  return {
    shop,
    rates: withHolds(rates, today, (row) => `${row.applies} ${row.subject}`),
    taxes: withHolds(taxes, today, (row) => row.code),
    charges: withHolds(allRows<ChargeRow>(ctx.db, CHARGES), today, (row) => row.kind),
    listPrices: withHolds(listPriceRows(ctx.db), today, thingOf),
    logoHash: logoOf(ctx.db)?.hash ?? '',
    packages: withHolds(packageRows(ctx.db), today, (row) => row.name),
  };
}

/** Marks the row of each kind that holds today. Rows of a kind come latest first. */
function withHolds<Row extends { readonly fromDay: LocalDay }>(
  rows: readonly Row[],
  today: LocalDay,
  kindOf: (row: Row) => string,
): readonly (Row & { readonly holds: boolean })[] {
  const seen = new Set<string>();
  return rows.map((row) => {
    const holds = row.fromDay <= today && !seen.has(kindOf(row));
    if (holds) seen.add(kindOf(row));
    return { ...row, holds };
  });
}
