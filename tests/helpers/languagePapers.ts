import type { CustomerId, InvoiceId, JobId } from '#core/shared/ids.ts';
import type { PaperLanguage } from '#core/shared/languages.ts';
import type { DocumentFile } from '#core/shared/reply.ts';
import type { LimitView } from '#core/shared/views/estimate.ts';
import { addTestJob, issueDraft, quoteJob, testEstimate } from './billing.ts';
import { CAR_RECORD, jobWith, unclayed } from './bookedJob.ts';
import { TEST_NOW, type TestShop } from './shop.ts';

const DAY_MS = 86_400_000;
const FILM = { lowTenthUm: 30, highTenthUm: 60 };

/** One of each kind of sentence that says what polishing will not fix. */
const LIMITS: readonly LimitView[] = [
  { key: 'staysEtched', panel: 'lfd', defect: 'etching', data: {} },
  { key: 'staysDeep', panel: 'bo', defect: 'deepScratches', data: {} },
  { key: 'staysNotInFilm', panel: 'fb', defect: 'stoneChips', data: {} },
  { key: 'softens', panel: 'ro', defect: 'waterSpots', data: {} },
  { key: 'thinPanel', panel: 'bl', defect: null, data: {} },
  { key: 'thinPanel', panel: 'rb', defect: null, data: { worked: 1 } },
  { key: 'override', panel: 'lfw', defect: null, data: { person: 'Vreni Halm', reason: 'x 12' } },
  { key: 'refinished', panel: 'rrq', defect: null, data: {} },
  { key: 'unreadable', panel: 'lmi', defect: null, data: {} },
  { key: 'notMeasured', panel: 'rmi', defect: null, data: {} },
  { key: 'budgetUsed', panel: 'lcr', defect: null, data: {} },
  { key: 'sanded', panel: 'rfw', defect: null, data: FILM },
  {
    ...{ key: 'sandingOption', panel: 'rfd', defect: 'sandingMarks' },
    data: { ...FILM, addedMin: 90, addedMinor: 12_750, taxIncluded: 1 },
  },
  { key: 'leftOut', panel: 'lap', defect: 'clearCoatFailure', data: {} },
];

export function speakTo(shop: TestShop, customerId: CustomerId, language: PaperLanguage | ''): void {
  shop.db.raw
    .prepare("UPDATE customer SET locale = ?, name = 'Łucja Vrn', address = 'Rva 11' WHERE id = ?")
    .run(language, customerId);
}

/** A job of a customer with a language, of a car whose facts are no words. */
function jobIn(shop: TestShop, language: PaperLanguage): { jobId: JobId; customerId: CustomerId } {
  const { jobId, customerId } = addTestJob(shop);
  speakTo(shop, customerId, language);
  shop.db.raw.prepare("UPDATE vehicle SET make_model = 'Vlx 3', colour = '#224'").run();
  return { jobId, customerId };
}

/** A quote of three options, two told apart by their panels, and one for paint that nobody has seen. */
async function quotes(shop: TestShop, language: PaperLanguage): Promise<Record<string, DocumentFile>> {
  const { jobId } = jobIn(shop, language);
  const most = { ...testEstimate(jobId), limits: LIMITS };
  const fewer = { ...testEstimate(jobId, { labour: 60_000 }), panels: most.panels.slice(0, 1), limits: [] };
  const dear = { ...testEstimate(jobId, { labour: 12_214_750 }), limits: [], wish: 'full' as const };
  const quoteId = quoteJob(shop, jobId, [most, fewer, dear], 'x 9', { titles: [], rush: true });
  const open = await shop.read('billing.quoteFile', { quoteId });
  const mail = await shop.read('billing.emailDraft', { of: 'quote', quoteId });
  const name = 'Łucja Vrn';
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name, way: 'telephone' });
  const agreed = await shop.read('billing.quoteFile', { quoteId });
  const unseen = { key: 'unseen', panel: null, defect: null, data: {} } as const;
  const estimates = [{ ...testEstimate(jobId), limits: [unseen] }];
  const second = quoteJob(shop, jobId, estimates, '', { titles: [], basis: 'byTime' });
  return { open, mail, agreed, unseen: await shop.read('billing.quoteFile', { quoteId: second }) };
}

/** A deposit invoice, the final one, a credit note for a part of it, a tip, two reminders and the account. */
async function bills(shop: TestShop, language: PaperLanguage): Promise<Record<string, DocumentFile>> {
  const { jobId, customerId } = jobIn(shop, language);
  const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', { titles: [] });
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Ł', way: 'spoken' });
  const deposit = shop.write('billing.takeDeposit', { jobId, amountMinor: 18_078, way: 'cash' });
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  const draft = await shop.read('billing.invoiceFile', { invoiceId });
  await issueDraft(shop, invoiceId);
  const lines = [{ line: 0, amountMinor: 5000 }];
  const credit = shop.write('billing.creditInvoice', { invoiceId, lines, reason: 'x 7' });
  const invoiceIds = [invoiceId];
  const { receipt } = shop.write('billing.takePayment', { invoiceIds, amountMinor: 10_000, way: 'transfer' });
  shop.at(TEST_NOW + 40 * DAY_MS);
  const of = (id: InvoiceId): Promise<DocumentFile> => shop.read('billing.invoiceFile', { invoiceId: id });
  const span = { fromDay: '2026-11-01', toDay: '2026-12-31' };
  const files = {
    ...{ draft, invoice: await of(invoiceId), credit: await of(credit.invoiceId) },
    mail: await shop.read('billing.emailDraft', { of: 'invoice', invoiceId }),
    creditMail: await shop.read('billing.emailDraft', { of: 'invoice', invoiceId: credit.invoiceId }),
    receipt: await shop.read('billing.receiptFile', { receipt }),
    deposit: await shop.read('billing.receiptFile', { receipt: deposit.receipt }),
    first: await shop.read('billing.reminderFile', { invoiceId, level: 1 }),
    second: await shop.read('billing.reminderFile', { invoiceId, level: 2 }),
    statement: await shop.read('billing.statementFile', { customerId, ...span }),
  };
  shop.at(TEST_NOW);
  if (deposit.invoiceId === null) return files;
  return { ...files, prepayment: await of(deposit.invoiceId) };
}

/** A partial invoice, and the final one that takes it off. */
async function parts(shop: TestShop, language: PaperLanguage): Promise<Record<string, DocumentFile>> {
  const { jobId } = jobIn(shop, language);
  const quoteId = quoteJob(shop, jobId, [testEstimate(jobId)], '', { titles: [] });
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Ł', way: 'spoken' });
  const issued: InvoiceId[] = [];
  for (const sharePpm of [200_000, 600_000]) {
    const shares = [0, 3].map((line) => ({ line, sharePpm }));
    const { invoiceId } = shop.write('billing.draftPartial', { jobId, shares });
    await issueDraft(shop, invoiceId);
    issued.push(invoiceId);
  }
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  await issueDraft(shop, invoiceId);
  const [, second] = issued;
  if (!second) throw new Error('no partial invoice');
  return {
    partial: await shop.read('billing.invoiceFile', { invoiceId: second }),
    final: await shop.read('billing.invoiceFile', { invoiceId }),
  };
}

/** The records of a car that came and went, polished, sanded and coated, with a message. */
async function records(shop: TestShop, language: PaperLanguage): Promise<Record<string, DocumentFile>> {
  const { jobId, stageIds, customerId } = jobWith(shop, ['wash', 'cut', 'protect']);
  speakTo(shop, customerId, language);
  shop.db.raw.prepare("UPDATE vehicle SET make_model = 'Vlx 3', colour = '#224'").run();
  const said = { ...CAR_RECORD, belongings: 'x 1', damage: [{ panel: 'fb' as const, note: 'x 2' }] };
  shop.write('bookings.arrive', { jobId, ...said });
  shop.write('paint.startInspection', { jobId });
  shop.write('paint.addReadings', { jobId, panel: 'ro', values: [112, 114, 118] });
  shop.write('paint.addReadings', { jobId, panel: 'bo', values: [102] });
  for (const stageId of stageIds) {
    const personId = shop.people.owner;
    shop.write('bookings.startStage', { stageId, personId, setAside: unclayed('x 3') });
    shop.write('bookings.finishStage', { stageId, draws: [] });
  }
  // Sanding is agreed with its owner by a quote of its own; here only what is printed of it matters.
  shop.db.raw.prepare("UPDATE job_stage SET kind = 'sand' WHERE id = ?").run(stageIds[0]);
  shop.write('bookings.handOver', { jobId, ...said, agreedWay: 'spoken' });
  const { records: kept } = await shop.read('bookings.job', { jobId });
  const files: Record<string, DocumentFile> = {};
  for (const { id: recordId, kind } of kept) {
    files[kind] = await shop.read('bookings.recordFile', { jobId, recordId });
    files[`${kind}Mail`] = await shop.read('bookings.recordDraft', { jobId, recordId });
  }
  shop.db.raw
    .prepare('UPDATE job SET drop_off_min = 29700000, pick_up_min = 29702000 WHERE id = ?')
    .run(jobId);
  return { ...files, calendar: await shop.read('bays.calendarFile', { jobId }) };
}

/** A gift voucher of each kind: one used in part, and one taxed when sold with the invoice that takes it off. */
async function vouchers(shop: TestShop, language: PaperLanguage): Promise<Record<string, DocumentFile>> {
  const { customerId } = jobIn(shop, language);
  const sold = { customerId, amountMinor: 5000, way: 'cash', forName: 'Mro' } as const;
  const multi = shop.write('billing.sellVoucher', sold);
  const lines = [{ text: 'x 5', quantity: 1, priceMinor: 9900 }];
  const bill = shop.write('billing.draftOther', { customerId, lines }).invoiceId;
  await issueDraft(shop, bill);
  shop.write('billing.useVoucher', { code: multi.code, invoiceId: bill, amountMinor: 2000 });
  const { settings } = await shop.read('shop.page', {}).then((page) => page.shop);
  const billing = { ...settings.billing, voucherPurpose: 'single' };
  shop.db.raw.prepare('UPDATE shop SET settings = ?').run(JSON.stringify({ billing }));
  const single = shop.write('billing.sellVoucher', sold);
  const taken = shop.write('billing.draftOther', { customerId, lines }).invoiceId;
  shop.write('billing.useVoucher', { code: single.code, invoiceId: taken, amountMinor: 5000 });
  await issueDraft(shop, taken);
  return {
    multi: await shop.read('billing.voucherFile', { voucherId: multi.voucherId }),
    single: await shop.read('billing.voucherFile', { voucherId: single.voucherId }),
    receipt: await shop.read('billing.receiptFile', { receipt: multi.receipt }),
    off: await shop.read('billing.invoiceFile', { invoiceId: taken }),
  };
}

/** Every paper and message that a customer of a language can get. What is typed in them are no words of any language. */
export async function papersIn(
  shop: TestShop,
  language: PaperLanguage,
): Promise<Readonly<Record<string, DocumentFile>>> {
  const all = { records, quotes, bills, parts, vouchers };
  const files: Record<string, DocumentFile> = {};
  for (const [group, make] of Object.entries(all))
    for (const [name, file] of Object.entries(await make(shop, language))) files[`${group}.${name}`] = file;
  return files;
}
