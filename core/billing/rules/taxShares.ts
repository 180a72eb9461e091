import type { LineTax, TaxShare } from '#core/shared/bill.ts';
import { timesPpm } from '#core/shared/money.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';

/** What falls under one tax, or under several that are due together. */
export type Taxed = { readonly tax: LineTax; readonly netMinor: number };
type Row = Pick<TaxShare, 'category' | 'ratePpm' | 'name' | 'reason'> & {
  /** One of several taxes, known by its name. */
  readonly ofSeveral: boolean;
  taxable: number;
  net: number;
};

/**
 * Tax by rate. Each of several taxes on one sale is a row of its own, reckoned on the sum of all that bears it and
 * rounded there, half away from zero: a county tax is reckoned on what bears the county tax. One reckoned on tax has the
 * taxes before it in its base.
 * @source EN 16931-1 BR-CO-17 for one tax; of several the order and rounding are common practice, no source: local law
 */
export function sharesOf(taxed: readonly Taxed[]): TaxShare[] {
  const rows: Row[] = [];
  for (const { tax, netMinor } of taxed) {
    const { category, reason } = tax;
    let before = 0;
    for (const [at, part] of (tax.parts ?? [tax]).entries()) {
      const { name, ratePpm } = part;
      const base = 'onTax' in part && part.onTax ? netMinor + before : netMinor;
      const ofSeveral = tax.parts !== undefined;
      const row = rowFor(rows, { category, ratePpm: ratePpm as Ppm, name, reason, ofSeveral });
      row.taxable += base;
      row.net += at === 0 ? netMinor : 0;
      before += timesPpm(base as Minor, ratePpm as Ppm);
    }
  }
  return rows.map(({ taxable, net, ofSeveral: _, ...row }) => ({
    ...row,
    taxableMinor: taxable as Minor,
    taxMinor: timesPpm(taxable as Minor, row.ratePpm),
    ...(net === taxable ? {} : { netMinor: net as Minor }),
  }));
}

/** A tax that stands alone is one row for each category and rate; one of several goes by its name too. */
function rowFor(rows: Row[], head: Omit<Row, 'taxable' | 'net'>): Row {
  const known = rows.find(
    (r) =>
      r.category === head.category &&
      r.ratePpm === head.ratePpm &&
      (r.name === head.name || !(r.ofSeveral || head.ofSeveral)),
  );
  if (known) return known;
  const made = { ...head, taxable: 0, net: 0 };
  rows.push(made);
  return made;
}

/** What a row of tax adds to the net of its document. */
export function netOfShare(share: Pick<TaxShare, 'taxableMinor' | 'netMinor'>): number {
  return share.netMinor ?? share.taxableMinor;
}
