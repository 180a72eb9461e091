import { sum } from '#tests/helpers/generalSolver.ts';
import type { Choice, Instance } from './read.ts';

type Operation = { readonly j: number; readonly k: number; readonly choices: readonly Choice[] };

/**
 * A shop as a mixed-integer model: a start for each operation, a machine chosen for it, and for each two that may
 * meet on a machine which of them goes first. The least makespan is its least value.
 * @source A. S. Manne, On the job-shop scheduling problem (1960): one order for each pair, from memory
 */
export function stated({ jobs }: Instance): string {
  const operations = jobs.flatMap((job, j) => job.map((choices, k) => ({ j, k, choices })));
  const longest = operations.reduce((all, o) => all + Math.max(...o.choices.map((c) => c.time)), 0);
  const pairs = operations.flatMap((a, i) =>
    operations.slice(i + 1).flatMap((b) => (a.j === b.j ? [] : meeting(a, b, longest))),
  );
  const rows = [
    ...operations.flatMap((o) => chosen(o, o.k + 1 === jobs[o.j]?.length)),
    ...pairs.flatMap((pair) => pair.rows),
  ];
  const binaries = new Set([
    ...operations.flatMap((o) => o.choices.map((c) => on(o, c.machine))),
    ...pairs.map((pair) => pair.first),
  ]);
  return `Minimize\n obj: all\nSubject To\n${rows.join('\n')}\nBinary\n${[...binaries].join('\n')}\nEnd`;
}

/** One machine for it, and what follows begins when it has ended. */
function chosen(o: Operation, isLast: boolean): readonly string[] {
  const follows = isLast ? 'all' : start({ ...o, k: o.k + 1 });
  const took = o.choices.map((c) => [-c.time, on(o, c.machine)] as const);
  return [
    `${sum(o.choices.map((c) => [1, on(o, c.machine)]))} = 1`,
    `${sum([[1, follows], [-1, start(o)], ...took])} >= 0`,
  ];
}

/** For each machine that both may be on: if both are, one ends before the other begins. */
function meeting(
  a: Operation,
  b: Operation,
  m: number,
): readonly { readonly first: string; readonly rows: string[] }[] {
  const first = `y${a.j}_${a.k}_${b.j}_${b.k}`;
  return a.choices.flatMap((one) =>
    b.choices
      .filter((other) => other.machine === one.machine)
      .map((other) => {
        const both = [[-m, on(a, one.machine)] as const, [-m, on(b, one.machine)] as const];
        return {
          first,
          rows: [
            `${sum([[1, start(b)], [-1, start(a)], [-m, first], ...both])} >= ${one.time - 3 * m}`,
            `${sum([[1, start(a)], [-1, start(b)], [m, first], ...both])} >= ${other.time - 2 * m}`,
          ],
        };
      }),
  );
}

function start(o: Pick<Operation, 'j' | 'k'>): string {
  return `s${o.j}_${o.k}`;
}

function on(o: Operation, machine: number): string {
  return `x${o.j}_${o.k}_${machine}`;
}
