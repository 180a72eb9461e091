import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { migrate } from '#core/db/migrate.ts';
import { readMigrations } from '#core/db/migrationFiles.ts';
import { openForWriting } from '#core/db/open.ts';
import { examine } from '#core/doctor/doctor.ts';
import { type BatchDoor, batchDoorOver } from '#core/host/batchDoor.ts';
import { sayFinding } from '#core/shared/text/sayFinding.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED } from '../../seed/build.ts';

export type ShortDemo = {
  readonly door: BatchDoor;
  readonly nowMs: number;
  /** The numbers of a query's only column. */
  count(sql: string): number;
  findings(): readonly string[];
  close(): void;
};

/**
 * A demo shop with a short history, in a folder of its own; whoever asks it is its owner at the demo's moment: late
 * morning of a day, or an instant in epoch ms.
 */
export function shortDemo(when: string | number, historyDays: number): ShortDemo {
  const dir = mkdtempSync(path.join(os.tmpdir(), 'rakelight-short-'));
  const db = openForWriting(path.join(dir, 'rakelight.sqlite'));
  migrate(db, readMigrations(path.resolve(import.meta.dirname, '../../migrations')), 0);
  const door = batchDoorOver(db, SEED, 0);
  const nowMs = typeof when === 'number' ? when : demoNow(when as LocalDay);
  door.batch(() => buildDemo(door, { nowMs, historyDays }, () => {}));
  const owner = door.read('access.people', {}).find((p) => p.role === 'owner');
  if (owner) door.as({ id: owner.id, name: owner.name, role: 'owner' });
  door.at(nowMs);
  return {
    door,
    nowMs,
    count: (sql) => Number(db.raw.prepare(sql).pluck().get()),
    findings: () => examine(db).map((f) => sayFinding('en', f.check, f.values)),
    close: () => {
      door.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}
