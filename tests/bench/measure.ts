/** One line of the table: what was measured, how fast, beside what, and what was asked for. */
export type BenchRow = {
  readonly what: string;
  readonly measured: string;
  readonly beside?: string;
  readonly asked?: string;
};

/** By the clock, and what the processor worked: on a machine that does other things too the second is the truer one. */
export type Times = {
  readonly p50: number;
  readonly p95: number;
  readonly cpu: { readonly p50: number; readonly p95: number };
};

/**
 * Median and p95 of `runs` calls in milliseconds, after a warm-up of a tenth of them. `after` each of them is not counted.
 */
export async function timed<T>(
  runs: number,
  work: (i: number) => T | Promise<T>,
  after: (i: number, done: T) => void = () => {},
): Promise<Times> {
  const times: number[] = [];
  const cpu: number[] = [];
  for (let i = -Math.ceil(runs / 10); i < runs; i += 1) {
    const [start, before] = [performance.now(), process.cpuUsage()];
    const done = await work(i);
    const { user, system } = process.cpuUsage(before);
    if (i >= 0) {
      times.push(performance.now() - start);
      cpu.push((user + system) / 1000);
    }
    after(i, done);
  }
  times.sort((a, b) => a - b);
  cpu.sort((a, b) => a - b);
  return { p50: at(times, 0.5), p95: at(times, 0.95), cpu: { p50: at(cpu, 0.5), p95: at(cpu, 0.95) } };
}

export type Pair = { readonly ours: number; readonly other: number; readonly ratio: number };

/** The two in turn, so that a machine that slows down slows both: medians and their ratio. */
export async function paired(
  runs: number,
  ours: (i: number) => unknown,
  other: (i: number) => unknown,
): Promise<Pair> {
  const a: number[] = [];
  const b: number[] = [];
  for (let i = -Math.ceil(runs / 10); i < runs; i += 1) {
    const t0 = performance.now();
    await ours(i);
    const t1 = performance.now();
    await other(i);
    const t2 = performance.now();
    if (i < 0) continue;
    a.push(t1 - t0);
    b.push(t2 - t1);
  }
  a.sort((x, y) => x - y);
  b.sort((x, y) => x - y);
  return { ours: at(a, 0.5), other: at(b, 0.5), ratio: at(a, 0.5) / at(b, 0.5) };
}

function at(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

export function ms(value: number): string {
  return `${value < 1 ? value.toFixed(3) : value.toFixed(1)} ms`;
}

/** The table as text, columns padded. */
export function table(rows: readonly BenchRow[]): string {
  const cells = [
    ['what', 'measured', 'beside', 'asked'],
    ...rows.map((r) => [r.what, r.measured, r.beside ?? '', r.asked ?? '']),
  ];
  const widths = [0, 1, 2, 3].map((c) => Math.max(...cells.map((row) => row[c]?.length ?? 0)));
  return cells
    .map((row) =>
      row
        .map((text, c) => text.padEnd(widths[c] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
