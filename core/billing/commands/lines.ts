import type { ReadCtx } from '../../context.ts';
import type { Bill, LineKind, LineTax } from '../../shared/bill.ts';
import type { CustomerId } from '../../shared/ids.ts';
import type { TaxCode } from '../../shared/tax.ts';
import { paperLocale } from '../../shared/text/papers.ts';
import { isTextKey, say } from '../../shared/text/say.ts';
import type { LocalDay } from '../../shared/units.ts';
import { paperTagOf } from '../../views/billingParty.ts';
import { shopOf, taxOn } from '../../views/shop.ts';

/** The tax of a code on a day as a line carries it. */
export function lineTaxOn(ctx: Pick<ReadCtx, 'db'>, code: TaxCode, day: LocalDay): LineTax {
  const { category, ratePpm, name, reason, parts } = taxOn(ctx.db, code, day);
  const one = { code, category, ratePpm, name, reason };
  return parts.length === 0 ? one : { ...one, parts: [...parts] };
}

/** The tax of labour on a day where the shop has it untaxed; null = taxed as all else. @throws NO_TAX */
export function labourTaxOn(ctx: Pick<ReadCtx, 'db'>, day: LocalDay): LineTax | null {
  return shopOf(ctx.db).settings.billing.labourTaxed ? null : lineTaxOn(ctx, 'exempt', day);
}

/** The BCP 47 tag that a document is written in: the one its draft was begun in. */
export function tagOf(ctx: Pick<ReadCtx, 'db'>, row: Written): string {
  return row.locale || paperTagOf(ctx.db, row.customerId);
}
type Written = { readonly locale: string; readonly customerId: CustomerId | null };

/** The words of a line, in the language of a paper's tag. */
export function lineText(tag: string): (what: LineKind) => string {
  return (what) => {
    const key = `billing.line.${what}` as const;
    return isTextKey(key) ? say(paperLocale(tag), key) : what;
  };
}

/** A bill in the language of another tag. What somebody typed stays as it is. */
export function billIn(bill: Bill, from: string, to: string): Bill {
  if (from === to) return bill;
  const [was, is] = [lineText(from), lineText(to)];
  const lines = bill.lines.map((line) =>
    line.text === was(line.what) ? { ...line, text: is(line.what) } : line,
  );
  return { ...bill, lines };
}
