import { crc32, deflateRawSync } from 'node:zlib';
import { refuse } from '../shared/errors.ts';
import type { LocalDay } from '../shared/units.ts';

export type PackedFile = { readonly name: string; readonly bytes: Uint8Array };

/** What the format has room to count. */
const FORMAT = { files: 0xffff, bytes: 0xffff_ffff } as const;
const UTF8_NAMES = 0x0800;
const DEFLATED = 8;
const VERSION = 20;

/** A ZIP that is being packed. */
export type Zip = {
  /** Packs a file as it comes, so that its bytes need not be kept. @throws FOLDER_TOO_LARGE */
  add(file: PackedFile): void;
  /** The whole ZIP, once. */
  close(): Uint8Array;
};

/**
 * Files packed into one ZIP, in their order, all dated the same day at midnight, so that the same files give the same
 * bytes. At most 65,535 files and 4 GB, or less where `most` says so.
 * @source the layout of headers is the public ZIP format's, from memory; a test unpacks it by another program
 */
export function openZip(day: LocalDay, most: Readonly<Record<'files' | 'bytes', number>> = FORMAT): Zip {
  const date = dosDate(day);
  const parts: Uint8Array[] = [];
  const index: Uint8Array[] = [];
  let [files, offset] = [0, 0];
  function add(file: PackedFile): void {
    const name = new TextEncoder().encode(file.name);
    const packed = deflateRawSync(file.bytes);
    const facts = factsOf(file, packed, name, date);
    const head = Buffer.concat([numbers([4, 0x0403_4b50], ...facts, [2, 0]), name]);
    const next = offset + head.length + packed.length;
    if (files === most.files || next > most.bytes) refuse('FOLDER_TOO_LARGE', { files });
    const at = [2, 0] as const;
    index.push(numbers([4, 0x0201_4b50], [2, VERSION], ...facts, at, at, at, at, [4, 0], [4, offset]), name);
    parts.push(head, packed);
    [files, offset] = [files + 1, next];
  }
  return { add, close: () => joined([...parts, ...index, endOf(files, offset, index)]) };
}

/** What stands behind the index: how many files it names, how long it is and where it begins. */
function endOf(files: number, offset: number, index: readonly Uint8Array[]): Buffer {
  const length = index.reduce((sum, part) => sum + part.length, 0);
  const [count, none] = [[2, files] as const, [2, 0] as const];
  return numbers([4, 0x0605_4b50], none, none, count, count, [4, length], [4, offset], none);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
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
