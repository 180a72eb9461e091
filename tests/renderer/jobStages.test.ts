import { deflateSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import type { JobPicturesView } from '#core/shared/views/paint.ts';
import { CAR_RECORD, planned } from '#tests/helpers/bookedJob.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();

/** A grey square, as a camera would leave one: a PNG of 8 × 8 with one tone. */
function greyPng(tone: number): Buffer {
  const raw = Buffer.concat(Array.from({ length: 8 }, () => Buffer.from([0, ...Array(8).fill(tone)])));
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type), data]);
    const [size, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    size.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([size, body, check]);
  };
  const head = Buffer.from([0, 0, 0, 8, 0, 0, 0, 8, 8, 0, 0, 0, 0]);
  const signature = Buffer.from('89504e470d0a1a0a', 'hex');
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(raw)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function crc32(data: Buffer): number {
  let crc = -1;
  for (const byte of data) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc >>> 0;
}

/** A quote for the work as told, agreed by word: what is stopped half way is billed by its shares then. */
async function agreeTo(shop: ShopWindow, jobId: string): Promise<void> {
  const told = { wish: 'oneStage', condition: 'worn', ceiling: null, interior: false, protection: 'none' };
  const { estimateId } = await shop.call<{ estimateId: string }>('estimate.provisional', { jobId, ...told });
  const made = await shop.call<{ quoteId: string }>('billing.quoteEstimates', {
    ...{ jobId, estimateIds: [estimateId] },
  });
  const { revision } = await shop.call<{ revision: number }>('billing.readQuote', { quoteId: made.quoteId });
  const by = { letter: 'A', name: 'Marit Vane', way: 'spoken' };
  await shop.call('billing.acceptQuote', { quoteId: made.quoteId, revision, ...by });
}

/** What the desk corrects on a job, in the window, over the real door and a real file. */
describe.skipIf(choice === null)('the stages of a job', () => {
  let shop: ShopWindow;
  let jobId = '';

  beforeAll(async () => {
    if (!choice) return;
    shop = await openShopWindow(choice);
    jobId = await openJobFor(shop.call, { name: 'Marit Vane' }, { body: 'hatch', makeModel: 'Velloy Tern' });
    await agreeTo(shop, jobId);
    const stages = [planned('wash', []), planned('clay'), planned('cut'), planned('interior', [])];
    await shop.call('bookings.setStages', { jobId, basis: 'agreed', stages });
  });
  afterAll(() => shop?.close());

  const job = () => shop.call<JobView>('bookings.job', { jobId });
  const stage = async (kind: string) => (await job()).stages.find((s) => s.kind === kind);
  const press = (name: string) => shop.page.getByRole('button', { name, exact: true }).click();
  const row = (kind: RegExp) =>
    shop.page.getByRole('grid', { name: 'Stages' }).getByRole('row', { name: kind });

  it('does not take pictures before the customer was asked', async () => {
    await shop.goTo(`/jobs/${jobId}/pictures`);
    await shop.page.getByText('Nobody has agreed to pictures yet').waitFor();
    expect(await shop.page.locator('input[type="file"]').count()).toBe(0);
    await shop.call('bookings.arrive', { jobId, ...CAR_RECORD });
  });

  it('shows before and after either side of the tape, for the record only as was agreed', async () => {
    await shop.goTo(`/jobs/${jobId}/pictures`);
    await shop.page.locator('[data-panel="bo"]').click();
    await shop.page.getByText('For the record only').waitFor();
    for (const [phase, tone] of [
      ['before', 40],
      ['after', 220],
    ] as const) {
      await shop.page.getByText(phase, { exact: true }).first().click();
      const file = { name: `${phase}.png`, mimeType: 'image/png', buffer: greyPng(tone) };
      await shop.page.locator('input[type="file"]').setInputFiles(file);
      await shop.page.getByRole('img', { name: `${phase}, for the record` }).waitFor();
    }
    const tape = shop.page.getByRole('slider', { name: 'before and after' });
    await tape.waitFor();
    const at = Number(await tape.getAttribute('aria-valuenow'));
    await tape.press('Shift+ArrowRight');
    expect(Number(await tape.getAttribute('aria-valuenow'))).toBe(at + 5);
    await shop.shot('pictures');
    await shop.holds();
    const kept = await shop.call<JobPicturesView>('paint.pictures', { jobId });
    expect(kept.pictures.map((p) => [p.panel, p.phase, p.consent])).toEqual([
      ['bo', 'before', 'record'],
      ['bo', 'after', 'record'],
    ]);
    await shop.page.getByRole('button', { name: 'Remove' }).first().click();
    await expect.poll(() => tape.count()).toBe(0);
  });

  it('corrects the time of a stage, marks it as typed, and takes out what never happened', async () => {
    const wash = await stage('wash');
    await shop.call('bookings.startStage', { stageId: wash?.id });
    await shop.call('bookings.finishStage', { stageId: wash?.id });
    const [work] = (await stage('wash'))?.work ?? [];
    if (!work) throw new Error('no time was clocked');
    await shop.goTo(`/jobs/${jobId}`);
    await row(/^wash/).click();
    await press('Correct');
    const from = shop.page.getByRole('group', { name: 'from' });
    await from.getByRole('spinbutton', { name: /year/ }).fill('2025');
    await shop.shot('job-time');
    await press('Keep this time');
    await shop.page.getByText('typed', { exact: true }).waitFor();
    expect((await stage('wash'))?.work[0]).toMatchObject({ corrected: true });
    await press('Remove');
    await shop.page.getByText('Remove this time of Dev Ostler?').waitFor();
    await shop.page.getByRole('alertdialog').getByRole('button', { name: 'Remove' }).click();
    await expect.poll(async () => (await stage('wash'))?.work.length).toBe(0);
  });

  it('says in words why a typed time does not fit, and keeps nothing', async () => {
    await row(/^clay/).click();
    await press('Type time in');
    for (const [name, day] of Object.entries({ from: '4', to: '3' })) {
      const field = shop.page.getByRole('group', { name, exact: true });
      const parts = { day, month: '11', year: '2025', hour: '9', minute: '30' };
      for (const [part, value] of Object.entries(parts))
        await field.getByRole('spinbutton', { name: new RegExp(part) }).fill(value);
    }
    await press('Keep this time');
    await shop.page.getByText('The end has to be after the start').waitFor();
    expect((await stage('clay'))?.work).toEqual([]);
    await press('Leave it');
  });

  it('notes something on a stage and drops another with its reason', async () => {
    await shop.page.getByRole('textbox', { name: 'Something to note' }).fill('sap on the roof');
    await press('Keep the note');
    await shop.page.getByText('sap on the roof').waitFor();
    await row(/^interior/).click();
    await press('Drop interior');
    await shop.page.getByLabel('Why').fill('no');
    await press('Drop it');
    await shop.page.getByRole('alert').waitFor();
    expect((await stage('interior'))?.state).toBe('planned');
    await shop.page.getByLabel('Why').fill('customer does it himself');
    await shop.shot('job-drop');
    await press('Drop it');
    await expect.poll(async () => (await stage('interior'))?.state).toBe('dropped');
    expect((await stage('interior'))?.notes.map((n) => n.text)).toEqual(['customer does it himself']);
  });

  it('says before it stops half way what each stage bills, and takes a named share instead', async () => {
    const clay = await stage('clay');
    await shop.call('bookings.startStage', { stageId: clay?.id });
    await shop.call('bookings.panelDone', { stageId: clay?.id, panel: 'bo', done: true });
    await press('Stop half way');
    const shares = shop.page.getByRole('region', { name: 'What was done' });
    const said = (name: string) => shares.getByLabel(name).inputValue();
    await shares.getByLabel('clay').waitFor();
    expect([await said('wash'), await said('clay'), await said('cut')]).toEqual(['100', '50', '0']);
    await shares.getByLabel('clay').fill('40');
    await shop.page.getByLabel('Why').fill('owner needs the car');
    await shop.shot('job-stop');
    await shop.holds();
    await shop.page.getByRole('alertdialog').getByRole('button', { name: 'Stop half way' }).click();
    await shop.page.getByText('stopped half way: owner needs the car').waitFor();
    const shared = (await job()).stages.map((s) => [s.kind, s.sharePpm]);
    for (const one of [
      ['wash', 1_000_000],
      ['clay', 400_000],
      ['cut', 0],
      ['interior', 0],
    ])
      expect(shared).toContainEqual(one);
    expect(shop.faults).toEqual([]);
  });

  it('turns the pages of a long list of jobs', async () => {
    const first = await job();
    for (let n = 0; n < 64; n += 1)
      await shop.call('bookings.openJob', {
        ...{ customerId: first.customer.id, vehicleId: first.vehicle.id, purpose: 'washOnly', wish: '' },
      });
    await shop.goTo('/jobs');
    await shop.page.getByText('1–60 of 65').waitFor();
    await press('Later rows');
    await shop.page.getByText('61–65 of 65').waitFor();
    const rows = shop.page.getByRole('grid', { name: 'Jobs' }).locator('tbody tr');
    await expect.poll(() => rows.count()).toBe(5);
    await shop.page.keyboard.press('PageUp');
    await shop.page.getByText('1–60 of 65').waitFor();
    await shop.holds();
  });
});
