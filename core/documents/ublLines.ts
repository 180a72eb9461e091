import type { BillLine } from '../shared/bill.ts';
import type { InvoiceView } from '../shared/views/billing.ts';
import { type UblMoney, ublTax } from './ublParts.ts';
import { leaf, tree, type Xml } from './xml.ts';

/** Unit codes of quantities. @source UN/ECE Recommendation 20: MIN minute, C62 one */
const UNIT = { min: 'MIN', piece: 'C62' } as const;

/**
 * The lines. Prices that contain tax are written without it: the net amount of the line for its whole quantity as
 * base quantity, so that quantity × price ÷ base quantity is the amount to the cent. Prices are never negative (BR-27).
 */
export function ublLines(invoice: InvoiceView, money: UblMoney): Xml[] {
  return invoice.bill.lines.map((line, i) => {
    const net = invoice.totals.lineNetMinor[i] ?? 0;
    const size = Math.max(1, Math.abs(line.quantity));
    const asPriced = !invoice.bill.taxIncluded;
    const written = asPriced
      ? { quantity: line.quantity, per: line.per, price: line.priceMinor, discount: line.discountMinor }
      : { quantity: net < 0 ? -size : size, per: size, price: Math.abs(net), discount: 0 };
    const quantity = (money.credit ? -1 : 1) * written.quantity || 0;
    const unit = ` unitCode="${UNIT[line.unit]}"`;
    return tree(
      money.credit ? 'cac:CreditNoteLine' : 'cac:InvoiceLine',
      leaf('cbc:ID', String(i + 1)),
      leaf(money.credit ? 'cbc:CreditedQuantity' : 'cbc:InvoicedQuantity', String(quantity), unit),
      money.amount('cbc:LineExtensionAmount', net),
      discountOf(line, written.discount, money),
      tree('cac:Item', leaf('cbc:Name', line.text), ublTax('cac:ClassifiedTaxCategory', line.tax)),
      tree(
        'cac:Price',
        money.amount('cbc:PriceAmount', (money.credit ? -1 : 1) * written.price),
        leaf('cbc:BaseQuantity', String(written.per), unit),
      ),
    );
  });
}

function discountOf(line: BillLine, discount: number, money: UblMoney): Xml {
  if (discount === 0) return '';
  const shown = (money.credit ? -1 : 1) * discount;
  return tree(
    'cac:AllowanceCharge',
    leaf('cbc:ChargeIndicator', String(shown < 0)),
    leaf('cbc:AllowanceChargeReason', line.text),
    money.amount('cbc:Amount', (money.credit ? -1 : 1) * Math.abs(shown)),
  );
}
