/** A machine that may do an operation, and how long it takes there. */
export type Choice = { readonly machine: number; readonly time: number };
/** Jobs of operations in order; each operation on one of its machines. Machines count from 0. */
export type Instance = {
  readonly machines: number;
  readonly jobs: readonly (readonly (readonly Choice[])[])[];
};

/**
 * Reads a plain table (`jobs machines`, then for each job as many pairs `machine time` as there are machines) or a
 * flexible one (`jobs machines [average]`, then for each job its number of operations, and for each of those the number
 * of choices and a pair for each). Which of the two it is, is told by the first job's length.
 * @throws Error with the line that is short, too long or no figures
 */
export function readInstance(text: string): Instance {
  const lines = text.split('\n').filter((line) => line.trim() !== '' && !line.trim().startsWith('#'));
  const rows = lines.map((line, i) => figures(line, i + 1));
  const [jobs = 0, machines = 0] = rows[0] ?? [];
  const table = rows.slice(1, jobs + 1);
  if (jobs < 1 || machines < 1 || table.length < jobs)
    throw new Error('line 1: no such number of jobs follows');
  const plain = table.every((row) => row.length === 2 * machines);
  return { machines, jobs: table.map((row, i) => (plain ? plainJob(row) : flexibleJob(row, i + 2))) };
}

function figures(line: string, at: number): number[] {
  const row = line.trim().split(/\s+/).map(Number);
  if (row.some((n) => !Number.isFinite(n) || n < 0)) throw new Error(`line ${at}: not all of it is figures`);
  return row;
}

function plainJob(row: readonly number[]): Choice[][] {
  return Array.from({ length: row.length / 2 }, (_, k) => [pairAt(row, 2 * k)]);
}

function flexibleJob(row: readonly number[], line: number): Choice[][] {
  let at = 1;
  const operations = Array.from({ length: row[0] ?? 0 }, () => {
    const count = row[at] ?? 0;
    const choices = Array.from({ length: count }, (_, k) => pairAt(row, at + 1 + 2 * k));
    at += 1 + 2 * count;
    return choices;
  });
  if (at !== row.length || operations.some((o) => o.length === 0))
    throw new Error(`line ${line}: its choices do not fill it`);
  return operations;
}

function pairAt(row: readonly number[], at: number): Choice {
  return { machine: row[at] ?? 0, time: row[at + 1] ?? 0 };
}
