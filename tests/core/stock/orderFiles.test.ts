import { describe, expect, it } from 'vitest';
import type { ItemId, PurchaseOrderId } from '#core/shared/ids.ts';
import { collisionsOf, marksOf, pdfText, sizeOf } from '#tests/helpers/pdfText.ts';
import { shelfShop } from './shelf.ts';

const on = shelfShop();

type Line = { readonly itemId: ItemId; readonly packs: number };
function ordered(lines: readonly Line[], note = ''): PurchaseOrderId {
  const sent = lines.map((line) => ({ ...line, supplierId: on.shelf.kestle }));
  const { orders } = on.shop.write('stock.makeOrders', { lines: sent, note });
  return (orders[0]?.id ?? '') as PurchaseOrderId;
}

describe('what a supplier sells', () => {
  it('is not changed by somebody who has not seen what was said of it last', async () => {
    const { compound, kestle } = on.shelf;
    const link = { supplierId: kestle, itemId: compound, packSize: 1_000_000, priceMinor: 4120 };
    const stale = { error: { code: 'STALE' } };
    expect(await on.shop.call('stock.linkSupplier', link)).toMatchObject(stale);
    on.shop.write('stock.linkSupplier', { ...link, revision: 1 });
    expect(await on.shop.call('stock.linkSupplier', { ...link, revision: 1 })).toMatchObject(stale);
  });
});

describe('a purchase order on paper', () => {
  it('names shop, supplier, days, lines and total; given up packs are gone', async () => {
    const { clay, compound, kestle } = on.shelf;
    const link = { supplierId: kestle, itemId: compound, packSize: 1_000_000, priceMinor: 4120 };
    on.shop.write('stock.linkSupplier', { ...link, code: 'HC-1', revision: 1 });
    const orderId = ordered(
      [
        { itemId: clay, packs: 6 },
        { itemId: compound, packs: 3 },
      ],
      'Please ring before you come.',
    );
    const file = await on.shop.read('stock.orderFile', { orderId });
    expect(file).toMatchObject({ fileName: 'purchase-order-1.pdf', mime: 'application/pdf' });
    const [page = ''] = await pdfText(file.bytes);
    for (const part of [
      'Test Paintwork',
      'Purchase order 1',
      'Kestle & Rowe',
      'Ordered Nov 25, 2026, wanted by Nov 27, 2026.',
      'Please ring before you come.',
      'HC-1',
      '1,000 ml bottle',
    ])
      expect(page).toContain(part);
    // 6 × 9.80 = 58.80 and 3 × 41.20 = 123.60
    expect(page).toMatch(/Clay\s*200 g pack\s*6\s*9\.80\s*58\.80/);
    expect(page).toMatch(/3\s*41\.20\s*123\.60/);
    expect(page).toMatch(/Total before tax\s*€182\.40/);
    const view = await on.shop.read('stock.showOrder', { orderId });
    const lineId = view.lines.find((l) => l.itemId === clay)?.id ?? '';
    on.shop.write('stock.cancelOrderLine', { orderId, lineId, revision: view.revision });
    const [less = ''] = await pdfText((await on.shop.read('stock.orderFile', { orderId })).bytes);
    expect(less).not.toContain('Clay');
    expect(less).toMatch(/Total before tax\s*€123\.60/);
  });
  it('is A4 and tells a reader that speaks it what it is', async () => {
    const orderId = ordered([{ itemId: on.shelf.clay, packs: 1 }]);
    const { bytes } = await on.shop.read('stock.orderFile', { orderId });
    const [width, height] = await sizeOf(bytes);
    expect([Math.round(width), Math.round(height)]).toEqual([595, 842]);
    const marks = await marksOf(bytes);
    expect(marks).toMatchObject({ title: 'Purchase order 1', language: 'en' });
    expect(marks.roles).toContain('Table');
  });
  it('goes on over further pages with sixty lines, loses none and says its total once', async () => {
    const { kestle } = on.shelf;
    const names = Array.from({ length: 60 }, (_, k) => `Prüfscheibe Nr. ${k + 1}, grün, für Kanten`);
    const lines = names.map((name) => {
      const { itemId } = on.shop.write('stock.addItem', { name, unit: 'piece', packSize: 10 });
      const link = { supplierId: kestle, itemId, packSize: 10, priceMinor: 199 };
      on.shop.write('stock.linkSupplier', link);
      return { itemId, packs: 2 };
    });
    const orderId = ordered(lines);
    const { bytes } = await on.shop.read('stock.orderFile', { orderId });
    const pages = await pdfText(bytes);
    const text = pages.join(' ').replace(/\s+/g, ' ');
    expect(pages.length).toBeGreaterThan(1);
    for (const name of names) expect(text.split(name)).toHaveLength(2);
    // 60 lines of 2 packs at 1.99
    expect(text.split('€238.80')).toHaveLength(2);
    expect(await collisionsOf(bytes)).toEqual([]);
  });
  it('says the same as a list for the supplier’s program', async () => {
    const orderId = ordered([{ itemId: on.shelf.clay, packs: 6 }]);
    const csv = await on.shop.read('stock.orderFile', { orderId, as: 'csv' });
    expect(Buffer.from(csv.bytes).toString()).toBe(
      'order,code,item,pack,unit,packs,price,currency\r\n1,,Clay,200,g,6,9.80,EUR\r\n',
    );
  });
  it('goes out as an unsent draft to the supplier with the paper attached', async () => {
    const revision = (await on.shop.read('stock.listSuppliers', {}))[0]?.revision ?? 0;
    const changes = { email: 'orders@kestle.example' };
    on.shop.write('stock.changeSupplier', { supplierId: on.shelf.kestle, revision, changes });
    const orderId = ordered([{ itemId: on.shelf.clay, packs: 6 }]);
    const file = await on.shop.read('stock.orderFile', { orderId, as: 'eml' });
    const mail = Buffer.from(file.bytes).toString();
    expect(file.fileName).toBe('purchase-order-1.eml');
    expect(mail).toMatch(/^To: orders@kestle\.example\r\n/);
    expect(mail).toContain('Subject: Purchase order 1\r\n');
    expect(mail).toContain("filename*=UTF-8''purchase-order-1.pdf");
    expect(mail).toContain('X-Unsent: 1');
  });
  it('goes out to a supplier and from a shop with umlauts in name and note', async () => {
    const revision = (await on.shop.read('stock.listSuppliers', {}))[0]?.revision ?? 0;
    const changes = { name: 'Größe & Söhne, Lacke', email: 'bestellung@groesse.example' };
    on.shop.write('stock.changeSupplier', { supplierId: on.shelf.kestle, revision, changes });
    on.shop.db.raw
      .prepare(`UPDATE shop SET name = 'Lackpflege Überholz', email = 'desk@ueberholz.example'`)
      .run();
    const orderId = ordered([{ itemId: on.shelf.clay, packs: 6 }], 'Bitte vor 8 läuten.');
    const mail = Buffer.from((await on.shop.read('stock.orderFile', { orderId, as: 'eml' })).bytes).toString(
      'latin1',
    );
    // RFC 5322: only ASCII in the head; RFC 2047: names as encoded words; the text says in which letters it is
    const [head = ''] = mail.split('\r\n\r\n');
    expect(head).toMatch(/^[\x20-\x7e\r\n\t]*$/);
    expect(mail).toMatch(/^From: =\?utf-8\?B\?/m);
    expect(mail).toMatch(/charset=utf-8/i);
    const body = /Content-Transfer-Encoding: base64\r\n\r\n([A-Za-z0-9+/=\r\n]+)/.exec(mail)?.[1] ?? '';
    expect(Buffer.from(body, 'base64').toString()).toContain('Größe & Söhne, Lacke');
    const { bytes } = await on.shop.read('stock.orderFile', { orderId });
    expect((await pdfText(bytes)).join(' ')).toContain('Bitte vor 8 läuten.');
  });
});
