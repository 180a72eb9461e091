import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DIST, ROOT } from './desktopApp.ts';

/** One change to a built file. The text has to be there, once, or the change itself is at fault. */
export type Change = {
  readonly file: 'main.js' | 'preload.cjs';
  readonly find: string | RegExp;
  readonly put: string;
};

/**
 * A copy of the built program with a fault planted in it. It lies under node_modules so that what is not
 * bundled is still found. The change is looked for in the file and in the parts it loads.
 */
export function plantFault(...changes: readonly Change[]): { readonly dist: string; remove(): void } {
  const dist = path.join(ROOT, 'node_modules/.cache', `rakelight-fault-${process.pid}-${Date.now()}`);
  mkdirSync(dist, { recursive: true });
  cpSync(path.join(DIST, 'electron'), path.join(dist, 'electron'), { recursive: true });
  for (const part of ['renderer', 'core', 'migrations', 'version.json'])
    symlinkSync(path.join(DIST, part), path.join(dist, part));
  for (const change of changes) {
    const changed = partsOf(dist, change.file).filter((file) => replaceIn(file, change));
    if (changed.length !== 1) throw new Error(`${change.find} was found in ${changed.length} files`);
  }
  return { dist, remove: () => rmSync(dist, { recursive: true, force: true }) };
}

function partsOf(dist: string, file: string): readonly string[] {
  const folder = path.join(dist, 'electron');
  const text = readFileSync(path.join(folder, file), 'utf8');
  const parts = [...text.matchAll(/from "\.\/([\w-]+\.js)"/g)].map((found) => found[1] ?? '');
  return [file, ...parts].map((name) => path.join(folder, name));
}

function replaceIn(file: string, { find, put }: Change): boolean {
  const text = readFileSync(file, 'utf8');
  const parts = typeof find === 'string' ? text.split(find) : text.split(new RegExp(find, 'g'));
  const count = parts.length - 1;
  if (count === 0) return false;
  if (count > 1) throw new Error(`${find} stands ${count} times in ${path.basename(file)}`);
  writeFileSync(
    file,
    text.replace(find, () => put),
  );
  return true;
}
