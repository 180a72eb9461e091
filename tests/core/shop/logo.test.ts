import { rmSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { pictureFile, picturesShown } from '#core/db/pictures.ts';
import { examine } from '#core/doctor/doctor.ts';
import { pictureHead } from '#core/shop/rules/logo.ts';
import { sellerOf } from '#core/views/billingParty.ts';
import { logosOf } from '#core/views/logo.ts';
import { agreedJob, billJob, refusalOf } from '../../helpers/billing.ts';
import { marksOf } from '../../helpers/pdfText.ts';
import { pngOf } from '../../helpers/png.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const setLogo = (bytes: Uint8Array): Promise<string> =>
  refusalOf(shop, 'shop.setLogo', { logoBase64: Buffer.from(bytes).toString('base64') });
/** The smallest JPEG head that says 640 × 160 and ends; enough to be told by. */
const JPEG = Buffer.from(
  'ffd8ffe000104a46494600010100000100010000ffc0001108 00a0 0280 03012200021101031101ffd9'.replaceAll(' ', ''),
  'hex',
);

/** All dots are there, but the sum behind them is another's; the last twelve bytes are the end mark. */
function wrongSum(png: Buffer): Buffer {
  return png.fill(0, png.length - 16, png.length - 12);
}

async function figuresOn(invoiceId: string): Promise<readonly string[]> {
  const { bytes } = await shop.read('billing.invoiceFile', { invoiceId: invoiceId as never });
  return (await marksOf(bytes)).alts;
}

describe('the shop’s logo', () => {
  it('is told by its own bytes: kind and size', () => {
    expect(pictureHead(pngOf(300, 100))).toEqual({ mime: 'image/png', widthPx: 300, heightPx: 100 });
    expect(pictureHead(JPEG)).toEqual({ mime: 'image/jpeg', widthPx: 640, heightPx: 160 });
  });

  it.each([
    ['a text', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/> and more of it to be long enough')],
    ['a PNG that was cut off', pngOf(60, 20).subarray(0, 90)],
    ['a PNG with a spoiled dot', Buffer.from(pngOf(60, 20)).fill(0, 50, 54)],
    ['a PNG with a wrong checksum', wrongSum(pngOf(60, 20))],
    ['an interlaced PNG', Buffer.from(pngOf(60, 20)).fill(1, 28, 29)],
    ['a JPEG that was cut off', JPEG.subarray(0, 30)],
  ])('is refused when it is %s', async (_what, bytes) => {
    expect(await setLogo(bytes)).toBe('LOGO_UNREADABLE');
    expect((await shop.read('shop.page', {})).logoHash).toBe('');
  });

  it('is refused when it is too large', async () => {
    expect(await setLogo(Buffer.alloc(1024 * 1024 + 1))).toBe('LOGO_TOO_LARGE');
    expect(await setLogo(pngOf(4001, 2))).toBe('LOGO_TOO_LARGE');
  });

  it('is for the owner to change', async () => {
    shop.as('desk');
    expect(await setLogo(pngOf(60, 20))).toBe('NOT_ALLOWED');
  });

  it('is handed back as the file it came as, and not once it is taken off', async () => {
    expect(await refusalOf(shop, 'shop.logoFile', {})).toBe('NOT_FOUND');
    await setLogo(JPEG);
    const { fileName, mime, bytes } = await shop.read('shop.logoFile', {});
    expect([fileName, mime, Buffer.from(bytes).equals(JPEG)]).toEqual(['logo.jpg', 'image/jpeg', true]);
    shop.write('shop.removeLogo', {});
    expect(await refusalOf(shop, 'shop.logoFile', {})).toBe('NOT_FOUND');
  });

  it('stands on documents with words for it, and issued ones keep theirs', async () => {
    const { jobId } = agreedJob(shop);
    const plain = await billJob(shop, jobId);
    expect(await setLogo(pngOf(300, 100))).toBe('accepted');
    const signed = await billJob(shop, agreedJob(shop).jobId);
    shop.write('shop.removeLogo', {});
    expect(await figuresOn(plain)).toEqual([]);
    expect(await figuresOn(signed)).toEqual(['Logo of Test Paintwork']);
    expect(await refusalOf(shop, 'shop.removeLogo', {})).toBe('NOT_FOUND');
  });

  it('is held once for a year of documents, however many bear it', async () => {
    await setLogo(pngOf(300, 100));
    const lettered = logosOf(shop.db);
    const [one, other] = [sellerOf(shop.db), sellerOf(shop.db)].map((seller) => lettered(seller).logo?.bytes);
    expect(one?.length).toBeGreaterThan(0);
    expect(other).toBe(one);
  });

  it('goes into copies even when another stands in its place, and the doctor misses its file', async () => {
    await setLogo(pngOf(300, 100));
    await setLogo(pngOf(200, 100, false));
    const [first, second] = picturesShown(shop.db.raw);
    expect([first, second]).toEqual([expect.any(String), expect.any(String)]);
    expect(examine(shop.db)).toEqual([]);
    writeFileSync(pictureFile(shop.dir, String(first)), 'spoiled');
    rmSync(pictureFile(shop.dir, String(second)));
    expect(examine(shop.db).map((f) => [f.check, f.values['state']])).toEqual([
      ['logo.whole', 'spoiled'],
      ['logo.whole', 'gone'],
    ]);
  });
});
