import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { generalAnswer } from '#tests/helpers/generalSolver.ts';
import { type Instance, readInstance } from './jobShop/read.ts';
import { solve } from './jobShop/solve.ts';
import { stated } from './jobShop/stated.ts';

/** After so long on one file no further plan is searched, and nothing more is proved. */
const SEARCHED_MS = 60_000;
const PROVED_MS = 240_000;
/** A general-purpose solver is asked beside it, so many seconds, of no more operations than it can come to grips with. */
const GENERAL_SECONDS = 60;
const GENERAL_OPERATIONS = 60;

/**
 * Solves each file as a shop that is always open, with a yard without end and moves that take no time. Beside it stands
 * what was published, where a `bounds.csv` (`instance,lower,upper`) lies in the same folder.
 */
export async function shopRows(files: readonly string[]): Promise<string> {
  const head = ['file', 'makespan', 'bound', 'gap', 'proof', 'seconds', 'published', 'HiGHS'];
  const rows: (string | number)[][] = [];
  for (const file of files) {
    const began = performance.now();
    const after = (ms: number) => (): boolean => performance.now() - began > ms;
    const instance = readInstance(readFileSync(file, 'utf8'));
    const { makespan, bound, proved } = solve(instance, {
      seed: 1,
      iterations: 600_000,
      nodes: 4000,
      until: after(SEARCHED_MS),
      proveUntil: after(PROVED_MS),
    });
    const seconds = (performance.now() - began) / 1000;
    const gap = `${((100 * (makespan - bound)) / bound).toFixed(1)} %`;
    rows.push([
      path.basename(file),
      makespan,
      bound,
      gap,
      proved ? 'proved' : 'no',
      seconds.toFixed(2),
      published(file),
      await general(instance),
    ]);
  }
  const cells = [head, ...rows].map((row) => row.map(String));
  const widths = head.map((_, c) => Math.max(...cells.map((row) => row[c]?.length ?? 0)));
  return cells
    .map((row) =>
      row
        .map((text, c) => text.padEnd(widths[c] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** What a general-purpose solver comes to with the same shop. */
async function general(instance: Instance): Promise<string> {
  if (instance.jobs.flat().length > GENERAL_OPERATIONS) return 'not asked';
  const began = performance.now();
  const { value, proved } = await generalAnswer(stated(instance), GENERAL_SECONDS);
  const seconds = ((performance.now() - began) / 1000).toFixed(2);
  return `${value === null ? 'none' : Math.round(value)}, ${proved ? 'proved' : 'not proved'}, ${seconds} s`;
}

function published(file: string): string {
  const table = path.join(path.dirname(file), 'bounds.csv');
  if (!existsSync(table)) return '';
  const name = path.basename(file, path.extname(file));
  const line = readFileSync(table, 'utf8')
    .split(/\r?\n/)
    .find((row) => row.startsWith(`${name},`));
  const [, lower = '', upper = ''] = line?.split(',') ?? [];
  return lower === upper ? lower : `${lower}..${upper}`;
}
