import { mkdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { openBatchDoor } from '../core/host/batchDoor.ts';
import { localDayOf } from '../core/shared/time.ts';
import type { LocalDay } from '../core/shared/units.ts';
import { buildDemo, demoNow, SEED, TWO_YEARS } from './build.ts';
import { ZONE } from './crew.ts';

/** The story ends at `nowMs`, or at 10:42 on `day`. */
type Start = {
  readonly dataDir: string;
  readonly migrationsDir: string;
  readonly nowMs?: number;
  readonly day?: LocalDay;
};

/** Builds the demo shop beside its folder and puts it in place whole: a build that stops half way leaves nothing. */
export async function buildInto(
  start: Start,
  progress: (done: number, total: number) => void,
): Promise<void> {
  const part = `${start.dataDir}.part`;
  rmSync(part, { recursive: true, force: true });
  mkdirSync(part, { recursive: true });
  const nowMs = start.nowMs ?? demoNow(start.day ?? localDayOf(Date.now(), ZONE));
  const door = await openBatchDoor(part, start.migrationsDir, SEED, 0);
  try {
    door.batch(() => buildDemo(door, { nowMs, historyDays: TWO_YEARS }, progress));
    door.close();
  } catch (error) {
    door.close();
    rmSync(part, { recursive: true, force: true });
    throw error;
  }
  rmSync(start.dataDir, { recursive: true, force: true });
  mkdirSync(path.dirname(start.dataDir), { recursive: true });
  renameSync(part, start.dataDir);
}

const port = parentPort;
if (port) {
  buildInto(workerData as Start, (done, total) => port.postMessage({ op: 'progress', done, total })).then(
    () => port.postMessage({ op: 'done' }),
    (error: unknown) =>
      port.postMessage({
        op: 'failed',
        detail: error instanceof Error ? (error.stack ?? error.message) : String(error),
      }),
  );
}
