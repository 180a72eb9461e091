import { getHeapStatistics } from 'node:v8';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { replan } from '#core/bays/rules/replan.ts';
import { filled } from './bays.ts';
import type { BenchRow } from './measure.ts';

/**
 * What a re-plan takes in a worker of its own: the most of the worker's own heap that was in use at a report, the most that
 * the engine held for it, and by how much the whole process grew, which counts the worker's code and stacks too.
 */
type Size = { readonly people: number; readonly bays: number; readonly jobs: number; readonly days: number };
type Seen = { readonly jobs: number; readonly usedMb: number; readonly heapMb: number };

const SIZES: readonly Size[] = [
  { bays: 7, people: 5, jobs: 60, days: 28 },
  { bays: 12, people: 10, jobs: 400, days: 84 },
];
const ROUNDS = 100;
const MB = 1_048_576;

if (!isMainThread && workerData?.solverMemory) parentPort?.postMessage(measured(workerData.size as Size));

function measured({ bays, people, jobs, days }: Size): Seen {
  const full = filled(bays, people, jobs, days);
  const late = [...full.jobs].map(
    ([id, j]) => [id, { ...j, promiseMin: (j.promiseMin ?? 0) - 1440 }] as const,
  );
  let [used, heap] = [0, 0];
  const b = { ...full, jobs: new Map(late) };
  replan(b, { seed: 1, iterations: ROUNDS, consent: new Set(b.jobs.keys()) }, () => {
    const now = getHeapStatistics();
    used = Math.max(used, now.used_heap_size + now.external_memory);
    heap = Math.max(heap, now.total_heap_size + now.external_memory);
    return true;
  });
  return { jobs: b.jobs.size, usedMb: used / MB, heapMb: heap / MB };
}

export async function rows(): Promise<readonly BenchRow[]> {
  const all: BenchRow[] = [];
  for (const size of SIZES) {
    const before = process.memoryUsage.rss();
    let most = before;
    const watch = setInterval(() => {
      most = Math.max(most, process.memoryUsage.rss());
    }, 20);
    const seen = await inWorker(size);
    clearInterval(watch);
    all.push({
      what: `a re-plan's worker, ${seen.jobs} jobs, ${ROUNDS} rounds: its heap in use, at most`,
      measured: `${seen.usedMb.toFixed(0)} MB`,
      beside: `heap held ${seen.heapMb.toFixed(0)} MB; the process grew by ${((most - before) / MB).toFixed(0)} MB`,
      asked: '< 200 MB',
    });
  }
  return all;
}

function inWorker(size: Size): Promise<Seen> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url), { workerData: { solverMemory: true, size } });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}
