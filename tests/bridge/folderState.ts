import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** Every file of a folder with the hash of its bytes; null when the folder is not there. */
export function folderState(folder: string): Readonly<Record<string, string>> | null {
  if (!existsSync(folder)) return null;
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return Object.fromEntries(
    files.map((entry) => {
      const file = path.join(entry.parentPath, entry.name);
      return [path.relative(folder, file), createHash('sha256').update(readFileSync(file)).digest('hex')];
    }),
  );
}
