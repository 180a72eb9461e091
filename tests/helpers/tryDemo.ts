import { mkdtempSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { openBatchDoor } from '#core/host/batchDoor.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { buildDemo, SEED } from '../../seed/build.ts';

const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-demo-'));
const door = await openBatchDoor(dir, path.resolve(import.meta.dirname, '../../migrations'), SEED, 0);
const t = performance.now();
const days = Number(process.argv[2] ?? 60);
door.batch(() =>
  buildDemo(
    door,
    { day: '2026-11-25' as LocalDay, historyDays: days, callsPerWeek: Number(process.argv[3] ?? 12.5) },
    () => {},
  ),
);
console.log(dir, Math.round(performance.now() - t), 'ms');
door.close();
