import { rmSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { clockFrom } from './clock.ts';

export type DemoBuild = {
  readonly dataDir: string;
  readonly migrationsDir: string;
  readonly seedFile: string;
  readonly onProgress: (done: number, total: number, note: unknown) => void;
};

/** What the demo builder says on its way. */
export type FromSeed =
  | { readonly op: 'progress'; readonly done: number; readonly total: number }
  | { readonly op: 'done' }
  | { readonly op: 'failed'; readonly detail: string };

/** It makes and forgets much, and is gone when it is done: with more room it clears up less often. */
const YOUNG_MB = 64;

/** Builds the demo shop in a worker of its own: started by path, so that nothing imports seed/. */
export function buildDemo(options: DemoBuild): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(options.seedFile, {
      workerData: {
        dataDir: options.dataDir,
        migrationsDir: options.migrationsDir,
        nowMs: clockFrom(process.env['RAKELIGHT_CLOCK'])(),
      },
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
    });
    worker.on('message', (message: FromSeed) => {
      if (message.op === 'progress') options.onProgress(message.done, message.total, null);
      else if (message.op === 'failed') reject(new Error(message.detail));
      else resolve();
    });
    worker.on('error', reject);
    worker.on('exit', () => reject(new Error('the demo builder stopped early')));
  });
}

/** Takes away what a builder left that was killed half way. */
export function clearHalfBuilt(demoDir: string): void {
  rmSync(`${demoDir}.part`, { recursive: true, force: true });
}
