import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { finishPdf, heading, openPdf, paragraph, space } from '#core/documents/pdfKit.ts';
import type { DocumentFile } from '#core/shared/reply.ts';
import { addTestJob, agreedJob, billJob, issueDraft, quoteJob, testEstimate } from '../../helpers/billing.ts';
import { collisionsOf, pdfText, sizeOf } from '../../helpers/pdfText.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

const NAME = 'Wilhelmine-Änne von und zu Ostermünde-Überlingen am Weißen Se'; /* 61 letters */
const FIRM = 'Lackpflege Änderungsschneiderei Größenwahn & Töchter Gesellschaft';
const MAIL = 'werkstatt-und-annahme@lackpflege-emberwick.example.org';
const WORD = `${'Mikrofasertuchwaschmaschinenzubehör'.repeat(3)}`;

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
  shop.db.raw
    .prepare("UPDATE shop SET locale = 'en-GB', name = ?, phone = '+43 5550 123456 789', email = ?")
    .run(FIRM, MAIL);
});
afterEach(() => shop.close());

function longParty(customerId: string): void {
  const address =
    'Zur alten Gerberei 14, Hinterhof, dritter Eingang links\n1234 Übersee-am-Wörthersteig\nÖsterreich';
  shop.db.raw
    .prepare('UPDATE customer SET name = ?, address = ? WHERE id = ?')
    .run(NAME, address, customerId);
}

/** Every paper there is about money, each with long names and more than it usually has to carry. */
async function papers(): Promise<Readonly<Record<string, DocumentFile>>> {
  const offered = addTestJob(shop);
  longParty(offered.customerId);
  const quoteId = quoteJob(
    shop,
    offered.jobId,
    [80_750, 114_750, 12_214_750].map((labour) => testEstimate(offered.jobId, { labour })),
    'the test spot took longer than planned on the bonnet, which is harder than it looked at first',
  );
  const { jobId, customerId } = agreedJob(shop);
  longParty(customerId);
  shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'card' });
  const invoiceId = await billJob(shop, jobId);
  const credited = shop.write('billing.creditInvoice', {
    invoiceId,
    lines: [{ line: 0, amountMinor: 5000 }],
    reason: 'one panel left out because the clear coat was thinner than anybody expected',
  });
  const lines = Array.from({ length: 60 }, (_, i) => ({
    text: i % 7 === 0 ? `${WORD} ${i}` : `Drying cloth ${i}`,
    quantity: i === 1 ? 1_000_000 : i + 1,
    priceMinor: 999,
  }));
  const many = shop.write('billing.draftOther', { customerId, lines }).invoiceId;
  await issueDraft(shop, many);
  const invoiceIds = [invoiceId];
  const { receipt } = shop.write('billing.takePayment', {
    ...{ invoiceIds, amountMinor: 100_000, way: 'cash', surplus: 'tip', note: WORD },
  });
  shop.at(TEST_NOW + 40 * 86_400_000);
  return {
    quote: await shop.read('billing.quoteFile', { quoteId }),
    invoice: await shop.read('billing.invoiceFile', { invoiceId }),
    credit: await shop.read('billing.invoiceFile', { invoiceId: credited.invoiceId }),
    many: await shop.read('billing.invoiceFile', { invoiceId: many }),
    receipt: await shop.read('billing.receiptFile', { receipt }),
    reminder: await shop.read('billing.reminderFile', { invoiceId: many, level: 2 }),
  };
}

describe.each(['A4', 'Letter'] as const)('papers on %s', (paper) => {
  it('keep long names, long words and many lines apart and on the page, and lose none of them', async () => {
    shop.db.raw.prepare('UPDATE shop SET paper = ?').run(paper);
    const all = await papers();
    for (const [name, file] of Object.entries(all)) {
      expect(await collisionsOf(file.bytes), name).toEqual([]);
      expect(await sizeOf(file.bytes)).toEqual(paper === 'A4' ? [595.28, 841.89] : [612, 792]);
      const pages = await pdfText(file.bytes);
      for (const page of pages) for (const part of [MAIL, 'DE000000000']) expect(page, name).toContain(part);
    }
    const many = await pdfText(all['many']?.bytes ?? new Uint8Array());
    expect(many.length).toBeGreaterThan(2);
    many.forEach((page, i) => {
      expect(page).toContain(`Invoice 3 · page ${i + 1} of ${many.length}`);
    });
    for (let i = 0; i < 60; i += 1) if (i % 7) expect(many.join(' ')).toContain(`Drying cloth ${i}`);
    const textOf = async (name: string): Promise<string> =>
      (await pdfText(all[name]?.bytes ?? new Uint8Array())).join(' ');
    const credit = await textOf('credit');
    expect(credit).toContain('Corrects document 1');
    expect(credit).not.toContain('−2.0 h');
    expect(await textOf('reminder')).toContain('Invoice 3 of 25 Nov 2026');
    expect(await textOf('quote')).toContain('8.1–12.0');
  });
});

describe('a heading', () => {
  it('goes to the next page with what it heads', async () => {
    const pdf = openPdf({
      ...{ title: 'A sheet', author: '', language: 'en', paper: 'A4', createdMs: 0, foot: '' },
      pageWord: () => '',
    });
    space(pdf, pdf.bottom - pdf.y - 30);
    heading(pdf, 'What polishing will not fix', 30);
    paragraph(pdf, 'Etching.');
    const pages = await pdfText(await finishPdf(pdf));
    expect(pages[0]).toBe('');
    expect(pages[1]).toContain('What polishing will not fix');
    expect(pages[1]).toContain('Etching.');
  });
});

it('keeps the cautions of a job card with their heading, however long the words of the customer are', async () => {
  const { jobId } = agreedJob(shop);
  for (let lines = 12; lines < 20; lines += 1) {
    shop.db.raw.prepare('UPDATE job SET wish = ? WHERE id = ?').run('Swirls. \n'.repeat(lines), jobId);
    const { bytes } = await shop.read('bookings.cardFile', { jobId });
    expect((await pdfText(bytes)).join('|'), `${lines} lines`).toMatch(/Take care\s*–/);
  }
});

describe('the search for collisions', () => {
  it('finds texts over each other and past the edge, and nothing where there is room', async () => {
    const drawn = async (at: readonly number[], word: string): Promise<string[]> => {
      const pdf = openPdf({
        ...{ title: 'A sheet', author: '', language: 'en', paper: 'A4', createdMs: 0, foot: '' },
        pageWord: () => '',
      });
      for (const x of at) {
        const { y } = pdf;
        paragraph(pdf, word, { box: { x, width: 1000 } });
        pdf.y = y;
      }
      return collisionsOf(await finishPdf(pdf));
    };
    expect(await drawn([50, 60], 'Etching')).toEqual(['1: Etching / Etching']);
    expect(await drawn([580], 'Etching')).not.toEqual([]);
    expect(await drawn([50, 150], 'Etching')).toEqual([]);
  });
});
