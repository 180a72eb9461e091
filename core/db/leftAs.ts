import { closeSync, fsyncSync, openSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Beside the shop file while nobody has it open: how it was left. */
const NOTE = 'rakelight.left';

/** Size in bytes and time of the last change in ms, as the file system tells them. */
type Left = { readonly bytes: number; readonly changedMs: number };

function stateOf(file: string): Left {
  const { size, mtimeMs } = statSync(file);
  return { bytes: size, changedMs: Math.floor(mtimeMs) };
}

function noteOf(file: string): string {
  return path.join(path.dirname(file), NOTE);
}

/** Notes, once the file is closed, how it was left: the next opening then need not read all of it. */
export function noteLeft(file: string): void {
  const handle = openSync(noteOf(file), 'w', 0o600);
  writeFileSync(handle, JSON.stringify(stateOf(file)));
  fsyncSync(handle);
  closeSync(handle);
}

/** True when the file was closed properly and nobody has changed it since. */
export function isAsLeft(file: string): boolean {
  try {
    const left = JSON.parse(readFileSync(noteOf(file), 'utf8')) as Partial<Left>;
    const now = stateOf(file);
    return left.bytes === now.bytes && left.changedMs === now.changedMs;
  } catch {
    return false;
  }
}

/** Takes the note away while the file is open: a program that is killed leaves none. */
export function forgetLeft(file: string): void {
  rmSync(noteOf(file), { force: true });
}
