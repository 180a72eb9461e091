import { crc32, deflateRawSync } from 'node:zlib';
import { invariant } from '../shared/errors.ts';
import type { LocalDay } from '../shared/units.ts';

export type PackedFile = { readonly name: string; readonly bytes: Uint8Array };

const [MOST_FILES, MOST_BYTES] = [0xffff, 0xffff_ffff];
const UTF8_NAMES = 0x0800;
const DEFLATED = 8;
const VERSION = 20;

/**
 * Files packed into one ZIP, in their order, all dated the same day at midnight, so that the same files give the same
 * bytes. At most 65,535 files and 4 GB.
 * @source the layout of headers is the public ZIP format's, from memory; a test unpacks it by another program
 */
export function zipOf(files: readonly PackedFile[], day: LocalDay): Uint8Array {
  invariant(files.length <= MOST_FILES, 'a ZIP holds 65,535 files');
  const date = dosDate(day);
  const parts: Uint8Array[] = [];
  const index: Uint8Array[] = [];
  let offset = 0;
  for (const file of files) {
    const name = new TextEncoder().encode(file.name);
    const packed = deflateRawSync(file.bytes);
    const facts = factsOf(file, packed, name, date);
    const head = Buffer.concat([numbers([4, 0x0403_4b50], ...facts, [2, 0]), name]);
    const at = [2, 0] as const;
    index.push(numbers([4, 0x0201_4b50], [2, VERSION], ...facts, at, at, at, at, [4, 0], [4, offset]), name);
    parts.push(head, packed);
    offset += head.length + packed.length;
  }
  invariant(offset <= MOST_BYTES, 'a ZIP holds 4 GB');
  const directory = Buffer.concat(index);
  const [count, none] = [[2, files.length] as const, [2, 0] as const];
  const end = numbers([4, 0x0605_4b50], none, none, count, count, [4, directory.length], [4, offset], none);
  return new Uint8Array(Buffer.concat([...parts, directory, end]));
}

type Field = readonly [bytes: 2 | 4, value: number];

/** What both headers of a file say, from the version needed to the length of its name. */
function factsOf(file: PackedFile, packed: Uint8Array, name: Uint8Array, date: number): Field[] {
  return [
    [2, VERSION],
    [2, UTF8_NAMES],
    [2, DEFLATED],
    [2, 0],
    [2, date],
    [4, crc32(file.bytes)],
    [4, packed.length],
    [4, file.bytes.length],
    [2, name.length],
  ];
}

/** Little-endian numbers one after the other. */
function numbers(...fields: readonly Field[]): Buffer {
  const out = Buffer.alloc(fields.reduce((sum, [bytes]) => sum + bytes, 0));
  let at = 0;
  for (const [bytes, value] of fields) {
    out.writeUIntLE(value, at, bytes);
    at += bytes;
  }
  return out;
}

/** Years since 1980, month and day in sixteen bits. */
function dosDate(day: LocalDay): number {
  const [year = 1980, month = 1, date = 1] = day.split('-').map(Number);
  return ((year - 1980) << 9) | (month << 5) | date;
}
