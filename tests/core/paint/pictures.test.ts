import { existsSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { CAR_RECORD } from '#tests/helpers/bookedJob.ts';
import { openTestShop, TEST_NOW, type TestShop } from '#tests/helpers/shop.ts';
import { addJob, type PaintCase } from './job.ts';

let shop: TestShop;
let job: PaintCase;
beforeEach(() => {
  shop = openTestShop();
  job = addJob(shop);
});
afterEach(() => shop.close());

const png = Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), Buffer.alloc(64, 7)]);
const base64 = png.toString('base64');
async function refusal(name: string, input: unknown) {
  const reply = await shop.call(name, input);
  return reply.ok ? null : reply.error;
}
function takeIn(picturesRecord: boolean, picturesPublish: boolean): void {
  shop.write('bookings.arrive', { jobId: job.jobId, ...CAR_RECORD, picturesRecord, picturesPublish });
}

describe('pictures', () => {
  test('are kept by their hash beside the shop’s file and come back as they were', async () => {
    takeIn(true, false);
    const { pictureId } = shop.write('paint.addPicture', { jobId: job.jobId, panel: 'bo', base64 });
    const row = shop.db.raw.prepare('SELECT hash FROM picture').pluck().get() as string;
    expect(existsSync(path.join(shop.dir, 'pictures', row.slice(0, 2), row))).toBe(true);
    const file = await shop.read('paint.picture', { pictureId });
    expect(file.mime).toBe('image/png');
    expect(Buffer.from(file.bytes).equals(png)).toBe(true);
    shop.write('paint.removePicture', { pictureId });
    expect(await refusal('paint.picture', { pictureId })).toMatchObject({ code: 'NOT_FOUND' });
  });

  test('what is no picture is refused', async () => {
    takeIn(true, false);
    const text = Buffer.from('this is a text, not a picture at all').toString('base64');
    expect(await refusal('paint.addPicture', { jobId: job.jobId, base64: text })).toMatchObject({
      code: 'PICTURE_UNREADABLE',
    });
  });

  test('are not taken before anybody was asked, nor shown to others beyond what was agreed', async () => {
    const add = (consent: 'record' | 'publish') =>
      refusal('paint.addPicture', { jobId: job.jobId, base64, consent });
    const agreed = async () => (await shop.read('paint.pictures', { jobId: job.jobId })).agreed;
    expect([await agreed(), await add('record')]).toMatchObject([
      'notAsked',
      { code: 'PICTURE_NOT_AGREED', data: { agreed: 'notAsked' } },
    ]);
    takeIn(true, false);
    expect([await agreed(), await add('publish')]).toMatchObject([
      'record',
      { code: 'PICTURE_NOT_AGREED', data: { agreed: 'record' } },
    ]);
    expect(await add('record')).toBeNull();
  });

  test('are not taken at all where the customer does not want any', async () => {
    takeIn(false, false);
    expect(await refusal('paint.addPicture', { jobId: job.jobId, base64 })).toMatchObject({
      data: { agreed: 'none' },
    });
  });

  test('follow the newest record: what is taken back at the handover counts', async () => {
    takeIn(true, true);
    shop.write('paint.addPicture', { jobId: job.jobId, base64, consent: 'publish' });
    shop.db.raw.prepare("UPDATE job SET state = 'ready' WHERE id = ?").run(job.jobId);
    shop.at(TEST_NOW + 1000);
    shop.write('bookings.handOver', { jobId: job.jobId, ...CAR_RECORD, picturesPublish: false });
    expect((await shop.read('paint.pictures', { jobId: job.jobId })).agreed).toBe('record');
  });

  test('stay as they were noted in the file itself; they are only taken back, once', () => {
    takeIn(true, true);
    const { pictureId } = shop.write('paint.addPicture', { jobId: job.jobId, base64 });
    const set = (fields: string) => () =>
      shop.db.raw.prepare(`UPDATE picture SET ${fields} WHERE id = ?`).run(pictureId);
    expect(set("consent = 'publish'")).toThrow(/kept as noted/);
    expect(set("removed_ms = 5, consent = 'publish'")).toThrow(/kept as noted/);
    shop.write('paint.removePicture', { pictureId });
    expect(set('removed_ms = NULL')).toThrow(/kept as noted/);
    expect(() => shop.db.raw.exec('DELETE FROM picture')).toThrow(/kept as noted/);
  });
});
