import { expect } from 'vitest';
import { pdfText } from '#tests/helpers/pdfText.ts';
import type { Run } from '../run.ts';
import { documentOf, madeId, written } from '../work.ts';

const SUPPLIER = 'Ostermoor Supply';

/** The second car will need more sealant than there is: what to order, from whom, and why. */
export async function order(run: Run): Promise<void> {
  await run.signIn('Ines Örtel', '4711');
  await nobodySellsIt(run);
  await writeSellerDown(run);
  await run.open('/stock');
  const today = run.page.getByRole('region', { name: 'Order today' });
  await run.see(SUPPLIER, today);
  const board = await run.ask('stock.showBoard', {});
  const item = board.items.find((i) => i.id === madeId(run, 'sealant'));
  const line = board.suggestions.flatMap((s) => s.lines).find((l) => l.itemId === item?.id);
  expect(item?.booked).toBeGreaterThan(item?.onHand ?? 0);
  expect(item?.runOutDay).not.toBeNull();
  await run.press(/^Why/, today);
  await run.shot('20-why');
  await run.press(`Order ${line?.packs}`, today);
  await run.page.getByRole('link', { name: 'Order 1', exact: true }).first().waitFor();
  expect(run.row('SELECT packs, price_minor FROM purchase_order_line')).toEqual({
    packs: line?.packs,
    price_minor: 210,
  });
  await partDelivery(run, line?.packs ?? 0);
}

async function nobodySellsIt(run: Run): Promise<void> {
  await run.open('/stock');
  await run.see(/Runs out .* nobody is written down who sells it/);
  await run.shot('20-nobody');
}

async function writeSellerDown(run: Run): Promise<void> {
  await run.page.getByRole('link', { name: 'Suppliers' }).click();
  await run.fill(/^Name$/, SUPPLIER);
  await run.fill('Working days to delivery', '1');
  await run.press('Add the supplier');
  await run.see(SUPPLIER, run.page.getByRole('list', { name: 'Suppliers' }));
  await run.open(`/stock/items/${madeId(run, 'sealant')}`);
  await run.press(/pack and price/);
  await run.choose(/^Supplier/, SUPPLIER);
  await run.fill('A pack holds', '25');
  await run.fill('Price of a pack, before tax', written(run, 2.1, 2));
  await run.press('Save pack and price');
  await run.see(/25 ml for €.?2[.,]10, first choice/);
}

/** One pack comes first, the rest is still due; the order prints. */
async function partDelivery(run: Run, packs: number): Promise<void> {
  expect(packs).toBeGreaterThan(1);
  const level = 'SELECT qty FROM stock_level WHERE item_id = ?';
  const before = Number(run.row(level, madeId(run, 'sealant'))['qty']);
  await run.page.getByRole('link', { name: 'Order 1', exact: true }).first().click();
  const text = (
    await pdfText(await documentOf(run, 'stock.orderFile', () => run.press('Open as it prints')))
  ).join(' ');
  expect(text).toContain(SUPPLIER);
  expect(text).toContain('Sealant');
  await run.fill('Packs that came', '1');
  await run.press('Put in stock');
  await run.see('1 came');
  expect(run.row('SELECT packs, received_packs FROM purchase_order_line')).toEqual({
    packs,
    received_packs: 1,
  });
  expect(run.row(level, madeId(run, 'sealant'))['qty']).toBe(before + 25_000);
  expect((await run.ask('stock.listOrders', {}))[0]?.state).toBe('part');
  await run.shot('20-part');
}
