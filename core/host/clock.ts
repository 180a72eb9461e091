import { existsSync, readFileSync } from 'node:fs';
import type { EpochMs } from '../shared/units.ts';

/**
 * What time it is. Tests and pictures set another time by the variable RAKELIGHT_CLOCK: an instant
 * (`2026-11-25T09:00:00Z`), or a file that holds one and may be rewritten while the program runs.
 * @throws Error when the variable holds neither, before anything is written
 */
export function clockFrom(asked: string | undefined): () => EpochMs {
  if (!asked) return () => Date.now() as EpochMs;
  if (!existsSync(asked)) {
    const fixed = instant(asked);
    return () => fixed;
  }
  let last = instant(readFileSync(asked, 'utf8'));
  return () => {
    const text = readFileSync(asked, 'utf8');
    // A reader may meet the file between two writes.
    if (text.trim() !== '') last = instant(text);
    return last;
  };
}

function instant(text: string): EpochMs {
  const ms = Date.parse(text.trim());
  if (Number.isNaN(ms)) throw new Error(`RAKELIGHT_CLOCK holds no instant: ${text}`);
  return ms as EpochMs;
}
