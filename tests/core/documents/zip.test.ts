import { expect, it } from 'vitest';
import { openZip } from '#core/documents/zip.ts';
import type { LocalDay } from '#core/shared/units.ts';

const DAY = '2026-12-31' as LocalDay;
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

it('refuses by name the file that is one too many, or that makes it too long', () => {
  const few = openZip(DAY, { files: 2, bytes: 10_000 });
  few.add({ name: 'a', bytes: bytesOf('a') });
  few.add({ name: 'b', bytes: bytesOf('b') });
  expect(() => few.add({ name: 'c', bytes: bytesOf('c') })).toThrow('FOLDER_TOO_LARGE');
  // 30 bytes of head, one of name and the packed text: the first fits, the second does not
  const short = openZip(DAY, { files: 9, bytes: 50 });
  short.add({ name: 'a', bytes: bytesOf('a') });
  expect(() => short.add({ name: 'b', bytes: bytesOf('b') })).toThrow('FOLDER_TOO_LARGE');
  const end = Buffer.from(short.close()).subarray(-22);
  expect([end.readUInt32LE(0), end.readUInt16LE(10)]).toEqual([0x0605_4b50, 1]);
});

it('packs a file as it comes: what becomes of its bytes later changes nothing', () => {
  const packed = (spoil: boolean): Uint8Array => {
    const zip = openZip(DAY);
    const bytes = bytesOf('the same');
    zip.add({ name: 'a.txt', bytes });
    if (spoil) bytes.fill(0);
    return zip.close();
  };
  expect(packed(true)).toEqual(packed(false));
});
