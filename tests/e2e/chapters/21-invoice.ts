import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { InvoiceId, JobId } from '#core/shared/ids.ts';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import { documentOf, jobNow, madeId, written } from '../work.ts';
import { heldToSchema, textsIn } from '../xml.ts';

/** The ready car is billed as agreed: tax added up, the deposit taken off, on paper and for machines. */
export async function invoice(run: Run): Promise<void> {
  const jobId = madeId<JobId>(run, 'job');
  const { money } = await jobNow(run);
  await run.open(`/jobs/${jobId}`);
  await run.press('Invoice');
  await run.see('draft, no number yet');
  await run.press('Issue');
  await run.page
    .getByRole('heading', { name: /^Invoice \d+/ })
    .first()
    .waitFor();
  await run.see('Deposit taken off');
  const row = run.row(
    'SELECT id, number, to_pay_minor, prepaid_minor FROM invoice WHERE kind = ?',
    'invoice',
  );
  run.made.set('invoice', String(row['id']));
  const total = Number(row['to_pay_minor']);
  const due = total - Number(row['prepaid_minor']);
  expect(total).toBe(money.quotedMinor);
  expect(row['prepaid_minor']).toBe(money.depositMinor);
  await run.see(new RegExp(`€\\s?${written(run, due / 100, 2).replaceAll('.', '\\.')}`));
  await run.shot('21-invoice');
  await taxAddsUp(run, total);
  await papers(run, total, due);
}

/** Austria's example rate is a fifth: tax is a fifth of the net, to the cent. */
async function taxAddsUp(run: Run, total: number): Promise<void> {
  const view = await run.ask('billing.readInvoice', { invoiceId: madeId<InvoiceId>(run, 'invoice') });
  const [tax] = view.totals.taxes;
  expect(view.totals.taxes).toHaveLength(1);
  expect(tax?.taxMinor).toBe(Math.round(view.totals.netMinor * 0.2));
  expect(view.totals.netMinor + (tax?.taxMinor ?? 0) + view.totals.roundingMinor).toBe(total);
}

async function papers(run: Run, total: number, due: number): Promise<void> {
  const text = (
    await pdfText(await documentOf(run, 'billing.invoiceFile', () => run.press('Open as it prints')))
  ).join(' ');
  for (const part of [
    written(run, total / 100, 2),
    written(run, due / 100, 2),
    'AT',
    (await jobNow(run)).customer.name,
  ])
    expect(text).toContain(part);
  // The paper opened before may still be on its way to a tab of its own: only the file for machines counts.
  const file = run.page.waitForEvent('download', (d) => d.suggestedFilename().endsWith('.xml'));
  const bytes = await documentOf(run, 'billing.ublFile', () => run.press('E-invoice (UBL)'));
  expect(new Uint8Array(readFileSync(await (await file).path()))).toEqual(bytes);
  const sums = '/*/cac:LegalMonetaryTotal/cbc:';
  const [gross = 0, prepaid = 0, payable = 0] = ['TaxInclusive', 'Prepaid', 'Payable'].map((what) =>
    centsIn(bytes, `${sums}${what}Amount`),
  );
  expect([prepaid, payable]).toEqual([total - due, due]);
  // EN 16931, BR-CO-16: prices with tax in them may leave a cent that stands as rounding (BT-114).
  expect(gross - prepaid + centsIn(bytes, `${sums}PayableRoundingAmount`)).toBe(payable);
  if (process.env['RAKELIGHT_REFERENCE']) expect(heldToSchema(bytes, 'Invoice')).toBe(true);
}

/** An amount of the file for machines, in cents; nothing is nothing. */
function centsIn(bytes: Uint8Array, at: string): number {
  return Math.round(Number(textsIn(bytes, at)[0] ?? 0) * 100);
}
