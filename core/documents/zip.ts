import { ZipDeflate, Zip as ZipStream } from 'fflate';
import { refuse } from '../shared/errors.ts';
import type { LocalDay } from '../shared/units.ts';

export type PackedFile = { readonly name: string; readonly bytes: Uint8Array };

const [FIRST_DAY, LAST_DAY] = ['1980-01-01', '2099-12-31'];
/** What the format has room to count. */
const FORMAT = { files: 0xffff, bytes: 0xffff_ffff } as const;

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
 */
export function openZip(day: LocalDay, most: Readonly<Record<'files' | 'bytes', number>> = FORMAT): Zip {
  const mtime = midnight(day);
  const parts: Uint8Array[] = [];
  let [files, bytes] = [0, 0];
  const stream = new ZipStream((problem, part) => {
    if (problem) throw problem;
    parts.push(part);
    bytes += part.length;
  });
  function add(file: PackedFile): void {
    if (files === most.files) refuse('FOLDER_TOO_LARGE', { files });
    const entry = new ZipDeflate(file.name);
    entry.mtime = mtime;
    stream.add(entry);
    entry.push(file.bytes, true);
    files += 1;
    if (bytes > most.bytes) refuse('FOLDER_TOO_LARGE', { files: files - 1 });
  }
  function close(): Uint8Array {
    stream.end();
    return Buffer.concat(parts);
  }
  return { add, close };
}

/**
 * The library writes a date by the clock of the machine: at midnight there, the day is the same anywhere. Days that the
 * format cannot write become its first or last one.
 * @source PKWARE APPNOTE 6.3, 4.4.6: years from 1980, from memory; the library stops at 2099
 */
function midnight(asked: LocalDay): Date {
  const day = asked < FIRST_DAY ? FIRST_DAY : asked > LAST_DAY ? LAST_DAY : asked;
  const [year = 1980, month = 1, date = 1] = day.split('-').map(Number);
  return new Date(year, month - 1, date);
}
