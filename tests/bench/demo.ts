import { mkdtempSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { openBatchDoor } from '#core/host/batchDoor.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED, TWO_YEARS } from '../../seed/build.ts';

/**
 * Builds the demo shop around today in a folder of its own. Two years, unless RAKELIGHT_BENCH_DAYS says otherwise.
 * Its row stands beside the start of the program on the same folder, in host.ts.
 */
export async function demoFolder(): Promise<{ readonly dir: string; readonly buildMs: number }> {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-bench-'));
  const door = await openBatchDoor(dir, path.resolve(import.meta.dirname, '../../migrations'), SEED, 0);
  const nowMs = demoNow(new Date().toISOString().slice(0, 10) as LocalDay);
  const historyDays = Number(process.env['RAKELIGHT_BENCH_DAYS'] ?? TWO_YEARS);
  const start = performance.now();
  try {
    door.batch(() => buildDemo(door, { nowMs, historyDays }, () => {}));
  } finally {
    door.close();
  }
  return { dir, buildMs: performance.now() - start };
}
