import { mkdtempSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { openBatchDoor } from '#core/host/batchDoor.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED } from '../../seed/build.ts';

const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-demo-'));
const door = await openBatchDoor(dir, path.resolve(import.meta.dirname, '../../migrations'), SEED, 0);
const t = performance.now();
const nowMs = demoNow((process.argv[3] ?? '2026-11-25') as LocalDay);
door.batch(() => {
  try {
    buildDemo(door, { nowMs, historyDays: Number(process.argv[2] ?? 60) }, () => {});
  } catch (error) {
    console.error(error);
  }
});
console.log(dir, Math.round(performance.now() - t), 'ms');
door.close();
