import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import { type ShopSettings, settingsFrom } from '../shared/settings.ts';
import type { TaxCode } from '../shared/tax.ts';
import type { LocalDay, Minor, Ppm } from '../shared/units.ts';
import type { ChargeRow, ChargeShares, PackageRow, RateRow, Shop, TaxRow } from '../shared/views/shop.ts';
import type { Skill, StageKind } from '../shared/vocabulary.ts';

type Row = Omit<Shop, 'settings' | 'isDemo'> & { readonly settings: string; readonly isDemo: number };

const SHOP = `SELECT name, address, phone, email, tax_number AS taxNumber, country, zone, currency, locale,
  film_unit AS filmUnit, volume_unit AS volumeUnit, length_unit AS lengthUnit, paper, settings,
  is_demo AS isDemo, demo_day AS demoDay, revision FROM shop WHERE id = 1`;

let parsed: { readonly text: string; readonly value: ShopSettings } | null = null;

/** Settings rarely change and are asked for on every plan and price: the last text is parsed once. */
function parseOnce(text: string): ShopSettings {
  if (parsed?.text !== text) parsed = { text, value: settingsFrom(text) };
  return parsed.value;
}

/** The shop, or null before it is set up. */
export function shopIfSetUp(db: ReadDb): Shop | null {
  const row = oneRow<Row>(db, SHOP);
  if (!row) return null;
  return { ...row, isDemo: row.isDemo === 1, settings: parseOnce(row.settings) };
}

/**
 * The shop with its rules.
 * @throws SHOP_NOT_SET_UP before the shop is set up
 */
export function shopOf(db: ReadDb): Shop {
  return shopIfSetUp(db) ?? refuse('SHOP_NOT_SET_UP', {});
}

const AMOUNTS = `SELECT 1 FROM estimate UNION ALL SELECT 1 FROM quote UNION ALL SELECT 1 FROM invoice
  UNION ALL SELECT 1 FROM payment UNION ALL SELECT 1 FROM stock_movement WHERE value_minor <> 0
  UNION ALL SELECT 1 FROM supplier_item UNION ALL SELECT 1 FROM purchase_order UNION ALL SELECT 1 FROM hour_cost LIMIT 1`;

/** True once amounts of money are kept beside the shop's own prices: they mean what they say in its currency only. */
export function hasAmounts(db: ReadDb): boolean {
  return oneRow(db, AMOUNTS) !== undefined;
}

const RATE = `SELECT id, applies, subject, from_day AS fromDay, hour_minor AS hourMinor FROM rate
  WHERE from_day <= :day AND (applies = 'all' OR (applies = 'skill' AND subject = :skill)
    OR (applies = 'stage' AND subject = :stage))
  ORDER BY CASE applies WHEN 'stage' THEN 0 WHEN 'skill' THEN 1 ELSE 2 END, from_day DESC LIMIT 1`;

/**
 * The price of a person hour for a stage on a day: the stage kind's own rate, else its skill's, else the rate for
 * all; of each the latest that has begun. Minor units, with tax when `settings.billing.pricesIncludeTax`.
 * @throws NO_RATE when the shop has no rate that covers the day
 */
export function rateOn(db: ReadDb, stage: StageKind, skill: Skill, day: LocalDay): RateRow {
  return oneRow<RateRow>(db, RATE, { stage, skill, day }) ?? refuse('NO_RATE', { stage, day });
}

type StoredTax = Omit<TaxRow, 'parts'> & { readonly parts: string };

/** Columns of a tax as {@link taxRow} reads them. */
export const TAX_COLUMNS =
  'id, code, name, category, rate_ppm AS ratePpm, reason, parts, from_day AS fromDay';
const TAX = `SELECT ${TAX_COLUMNS} FROM tax_rate
  WHERE code = :code AND from_day <= :day ORDER BY from_day DESC LIMIT 1`;

/**
 * A tax as it stands on a day: the latest row of its code that has begun.
 * @throws NO_TAX when the shop has set no such tax for the day
 */
export function taxOn(db: ReadDb, code: TaxCode, day: LocalDay): TaxRow {
  const row = oneRow<StoredTax>(db, TAX, { code, day });
  return row ? taxRow(row) : refuse('NO_TAX', { code, day });
}

export function taxRow(stored: StoredTax): TaxRow {
  return { ...stored, parts: JSON.parse(stored.parts) as TaxRow['parts'] };
}

/** Every dated charge, of each kind the latest first. */
export const CHARGES = `SELECT id, kind, amount_minor AS amountMinor, share_ppm AS sharePpm, from_day AS fromDay FROM charge
  ORDER BY kind, from_day DESC`;

/** The minimum and the surcharges as they stand on a day; what the shop never set is none. */
export function chargesOn(db: ReadDb, day: LocalDay): ChargeShares {
  const begun = allRows<ChargeRow>(db, CHARGES).filter((row) => row.fromDay <= day);
  const row = (kind: ChargeRow['kind']): ChargeRow | undefined => begun.find((c) => c.kind === kind);
  return {
    minimumMinor: row('minimum')?.amountMinor ?? (0 as Minor),
    rushPpm: row('rush')?.sharePpm ?? (0 as Ppm),
    afterHoursPpm: row('afterHours')?.sharePpm ?? (0 as Ppm),
  };
}

const PACKAGES = `SELECT id, name, wish, interior, protection, bodies, price_minor AS priceMinor, from_day AS fromDay
  FROM package_price ORDER BY name, from_day DESC`;

/** Every dated price of a package, of each name the latest first. */
export function packageRows(db: ReadDb): PackageRow[] {
  type Stored = Omit<PackageRow, 'interior' | 'bodies'> & {
    readonly interior: number;
    readonly bodies: string;
  };
  return allRows<Stored>(db, PACKAGES).map((row) => ({
    ...row,
    interior: row.interior === 1,
    bodies: JSON.parse(row.bodies) as PackageRow['bodies'],
  }));
}

/** A package that is offered on a day. @throws PACKAGE_NOT_OFFERED */
export function packageOn(
  db: ReadDb,
  id: string,
  day: LocalDay,
): PackageRow & { readonly priceMinor: Minor } {
  const rows = packageRows(db);
  const asked = rows.find((row) => row.id === id);
  const holds = rows.find((row) => row.name === asked?.name && row.fromDay <= day);
  if (!asked || asked.fromDay > day || !holds || holds.priceMinor === null)
    return refuse('PACKAGE_NOT_OFFERED', { name: asked?.name ?? '' });
  return { ...holds, priceMinor: holds.priceMinor };
}
