import { constants, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import path from 'node:path';
import Database from 'better-sqlite3';
import { isPictureWhole, pictureFile, pictureNames, picturesShown } from './pictures.ts';

/**
 * Copies the pictures that a shop file shows and that the target does not hold yet. Pictures never change, so all
 * copies of the shop share one folder of them. A spoiled picture is not copied.
 * @returns how many the target lacks still: their file is gone or no longer what it was
 */
export async function copyPictures(shopFile: string, from: string, into: string): Promise<number> {
  let missing = 0;
  for (const hash of shownBy(shopFile)) {
    const [source, target] = [pictureFile(from, hash), pictureFile(into, hash)];
    if (existsSync(target)) continue;
    if (isPictureWhole(source, hash)) await copyWhole(source, target);
    else missing += 1;
  }
  return missing;
}

/** A real copy, not a second name of one file: what spoils the one must not spoil the other. */
async function copyWhole(source: string, target: string): Promise<void> {
  mkdirSync(path.dirname(target), { recursive: true, mode: 0o700 });
  await copyFile(source, `${target}.part`, constants.COPYFILE_FICLONE);
  renameSync(`${target}.part`, target);
}

/**
 * Puts pictures back that a restored shop file shows and that the data folder lacks or holds spoiled.
 * @returns how many are nowhere whole
 */
export async function bringPicturesBack(shopFile: string, copies: string, dataDir: string): Promise<number> {
  let missing = 0;
  for (const hash of shownBy(shopFile)) {
    const [kept, present] = [pictureFile(copies, hash), pictureFile(dataDir, hash)];
    if (isPictureWhole(present, hash)) continue;
    if (isPictureWhole(kept, hash)) await copyWhole(kept, present);
    else missing += 1;
  }
  return missing;
}

/** Lets go of pictures that none of the kept copies shows: those of an erased customer go with the last copy. */
export function dropUnshown(copies: string, files: readonly string[]): void {
  const shown = new Set(files.flatMap(shownBy));
  for (const name of pictureNames(copies))
    if (!shown.has(name)) rmSync(pictureFile(copies, name), { force: true });
}

function shownBy(shopFile: string): readonly string[] {
  const raw = new Database(shopFile, { readonly: true, fileMustExist: true });
  try {
    return picturesShown(raw);
  } finally {
    raw.close();
  }
}
