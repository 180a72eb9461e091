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
  const long = openZip(DAY, { files: 9, bytes: 80 });
  long.add({ name: 'a', bytes: bytesOf('a') });
  expect(() => long.add({ name: 'b', bytes: bytesOf('b') })).toThrow('FOLDER_TOO_LARGE');
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

it.each([
  ['1970-01-01', '1980-01-01'],
  ['2100-01-01', '2099-12-31'],
])('dates files of %s, which the format cannot write, %s', (day, written) => {
  const packed = (of: string): Uint8Array => {
    const zip = openZip(of as LocalDay);
    zip.add({ name: 'a.txt', bytes: bytesOf('a') });
    return zip.close();
  };
  expect(packed(day)).toEqual(packed(written));
});
