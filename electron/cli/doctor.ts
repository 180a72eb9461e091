import { existsSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { fromWhereTyped } from '../door/arguments.ts';
import { defaultDataDir } from '../options.ts';
import { DOCTOR_FILE } from '../paths.ts';
import { tell, tellFinding } from '../tell.ts';

type Found = { readonly check: string; readonly values: Readonly<Record<string, string | number>> };
type Examined = { readonly checks: number; readonly findings: readonly Found[] };

/** Reads beside a running host: the file may be open elsewhere. */
async function doctor(): Promise<number> {
  const { values } = parseArgs({
    options: { data: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) {
    console.log(tell('start.doctor.help'));
    return 0;
  }
  const dataDir = values.data === undefined ? defaultDataDir() : fromWhereTyped(values.data);
  if (!existsSync(path.join(dataDir, 'rakelight.sqlite'))) {
    console.error(tell('start.doctor.noFile', { folder: dataDir }));
    return 2;
  }
  return report(await examine(dataDir));
}

function report({ checks, findings }: Examined): number {
  for (const { check, values } of findings) console.log(`${check}: ${tellFinding(check, values)}`);
  console.log(
    findings.length === 0
      ? tell('start.doctor.sound', { checks })
      : tell('start.doctor.unsound', { findings: findings.length, checks }),
  );
  return findings.length === 0 ? 0 : 1;
}

function examine(dataDir: string): Promise<Examined> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(DOCTOR_FILE, { workerData: { dataDir } });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error('the examination stopped early')));
  });
}

process.exitCode = await doctor();
