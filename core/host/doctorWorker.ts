import path from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { DATABASE_FILE } from '../db/backup.ts';
import { openForReading } from '../db/open.ts';
import { CHECKS, examine } from '../doctor/doctor.ts';

/** Examines a shop file in a thread of its own and says what was found. */
const { dataDir } = workerData as { readonly dataDir: string };
const db = openForReading(path.join(dataDir, DATABASE_FILE));
const findings = examine(db);
db.raw.close();
parentPort?.postMessage({ checks: CHECKS.length, findings });
