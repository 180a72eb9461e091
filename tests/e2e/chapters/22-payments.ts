import { expect } from 'vitest';
import type { InvoiceId } from '#core/shared/ids.ts';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import { documentOf, madeId } from '../work.ts';
import { heldToSchema, textsIn } from '../xml.ts';

/** A part by card, the rest in cash; then something is given back by a credit note. */
export async function payments(run: Run): Promise<void> {
  const invoiceId = madeId<InvoiceId>(run, 'invoice');
  const owed = async (): Promise<number> => (await run.ask('billing.readInvoice', { invoiceId })).owedMinor;
  const all = await owed();
  await run.open(`/money/${invoiceId}`);
  await run.fill('Amount', '100');
  await run.press(/^Take €.?100[.,]00$/);
  await run.see(/payment, card/);
  expect(await owed()).toBe(all - 10_000);
  await run.pick('How', 'cash');
  await run.press(/^Take €/);
  await run.see('Paid in full');
  expect(await owed()).toBe(0);
  const taken = 'SELECT way, amount_minor FROM payment WHERE kind = ? ORDER BY rowid';
  expect(run.rows(taken, 'payment')).toEqual([
    { way: 'card', amount_minor: 10_000 },
    { way: 'cash', amount_minor: all - 10_000 },
  ]);
  await run.shot('22-paid');
  await credit(run, invoiceId);
}

/** An issued document never changes: what is given back is a document of its own. */
async function credit(run: Run, invoiceId: InvoiceId): Promise<void> {
  const before = run.row('SELECT bill, totals FROM invoice WHERE id = ?', invoiceId);
  await run.press('Credit note');
  await run.fill(/^(Wash|Cut)/, '24');
  await run.fill('Reason, printed on it', 'Water spots on the roof were left.');
  await run.shot('22-credit');
  await run.press('Write the credit note');
  await run.page
    .getByRole('heading', { name: /^Credit note \d+/ })
    .first()
    .waitFor();
  expect(run.row('SELECT bill, totals FROM invoice WHERE id = ?', invoiceId)).toEqual(before);
  expect(run.row('SELECT to_pay_minor, of_invoice_id FROM invoice WHERE kind = ?', 'credit')).toEqual({
    to_pay_minor: -2400,
    of_invoice_id: invoiceId,
  });
  const text = (
    await pdfText(await documentOf(run, 'billing.invoiceFile', () => run.press('Open as it prints')))
  ).join(' ');
  expect(text).toContain('Water spots on the roof were left.');
  const bytes = await documentOf(run, 'billing.ublFile', () => run.press('E-invoice (UBL)'));
  expect(textsIn(bytes, '/*/cac:LegalMonetaryTotal/cbc:TaxInclusiveAmount').map(Number)).toEqual([24]);
  if (process.env['RAKELIGHT_REFERENCE']) expect(heldToSchema(bytes, 'CreditNote')).toBe(true);
  await run.open(`/money/${invoiceId}`);
  await run.see('The shop owes');
  await run.press(/^Pay back €.?24[.,]00$/);
  await run.see('Paid in full');
}
