import type { ReadCtx } from '../../context.ts';
import type { LineKind, LineTax } from '../../shared/bill.ts';
import type { TaxCode } from '../../shared/tax.ts';
import { isTextKey, type Locale, localeFor, say } from '../../shared/text/say.ts';
import type { LocalDay } from '../../shared/units.ts';
import type { Shop } from '../../shared/views/shop.ts';
import { taxOn } from '../../views/shop.ts';

/** The tax of a code on a day as a line carries it. */
export function lineTaxOn(ctx: Pick<ReadCtx, 'db'>, code: TaxCode, day: LocalDay): LineTax {
  const { category, ratePpm, name, reason } = taxOn(ctx.db, code, day);
  return { code, category, ratePpm, name, reason };
}

/** The shop's language for texts that are frozen into documents. */
export function localeOf(shop: Pick<Shop, 'locale'>): Locale {
  return localeFor(shop.locale);
}

/** The words of a line, in the shop's language. */
export function lineText(shop: Pick<Shop, 'locale'>): (what: LineKind) => string {
  return (what) => {
    const key = `billing.line.${what}`;
    return isTextKey(key) ? say(localeOf(shop), key) : what;
  };
}
