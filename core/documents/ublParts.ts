import type { TaxShare } from '../shared/bill.ts';
import { leaf, tree, type Xml } from './xml.ts';

/** How amounts of one document are written: the currency, its digits, and the sign turned on credit notes. */
export type UblMoney = {
  readonly credit: boolean;
  amount(name: string, minor: number): Xml;
  plain(minor: number): string;
};

/** Category and rate; outside the scope of tax there is no rate (BR-O-05). */
export function ublTax(
  name: string,
  tax: { readonly category: TaxShare['category']; readonly ratePpm: number },
  reason = '',
): Xml {
  const percent = tax.category === 'O' ? '' : String(tax.ratePpm / 10_000);
  return tree(
    name,
    leaf('cbc:ID', tax.category),
    leaf('cbc:Percent', percent),
    tax.category === 'S' || tax.category === 'Z' ? '' : leaf('cbc:TaxExemptionReason', reason),
    tree('cac:TaxScheme', leaf('cbc:ID', 'VAT')),
  );
}
