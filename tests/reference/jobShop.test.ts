import { describe, expect, test } from 'vitest';
import { readInstance } from '../bench/jobShop/read.ts';
import { solve } from '../bench/jobShop/solve.ts';
import { FLEXIBLE, PLAIN } from './data/jobShops.ts';

const EFFORT = { seed: 1, iterations: 60_000, nodes: 4000 };

describe('a job-shop file', () => {
  test('of the plain form has one machine for each operation', () => {
    expect(readInstance('2 2\n0 3 1 4\n1 2 0 1\n')).toEqual({
      machines: 2,
      jobs: [
        [[{ machine: 0, time: 3 }], [{ machine: 1, time: 4 }]],
        [[{ machine: 1, time: 2 }], [{ machine: 0, time: 1 }]],
      ],
    });
  });

  test('of the flexible form names the machines that may do an operation, with or without their average', () => {
    const jobs = [
      [
        [
          { machine: 0, time: 3 },
          { machine: 1, time: 5 },
        ],
        [{ machine: 1, time: 2 }],
      ],
    ];
    expect(readInstance('1 2 1.5\n2 2 0 3 1 5 1 1 2\n')).toEqual({ machines: 2, jobs });
    expect(readInstance('1 2\n2 2 0 3 1 5 1 1 2\n')).toEqual({ machines: 2, jobs });
  });

  test.each(['', '2 2\n0 3 1 4\n', '1 2\n2 2 0 3 1 5 1 1 2 9\n', '1 2\nzero 3 1 4\n'])(
    'that is short, too long or no figures is refused with its line: %j',
    (text) => {
      expect(() => readInstance(text)).toThrow(/^line \d+: /);
    },
  );
});

describe('the makespan', () => {
  test('of two jobs that cross is 2 where waiting cars block nothing, and of one machine the sum', () => {
    expect(solve(readInstance('2 2\n0 1 1 1\n1 1 0 1\n'), EFFORT)).toMatchObject({
      makespan: 2,
      proved: true,
    });
    expect(solve(readInstance('2 1\n0 3\n0 4\n'), EFFORT)).toMatchObject({ makespan: 7, proved: true });
  });

  test.each([...PLAIN, ...FLEXIBLE])('of $name is $makespan, reached and proved', ({ text, makespan }) => {
    expect(solve(readInstance(text), EFFORT)).toMatchObject({ makespan, bound: makespan, proved: true });
  });

  test('of a flexible shop takes the quicker machine and shares the work', () => {
    // Two operations, each 4 on either machine: side by side they take 4, and nothing can be quicker than 4.
    const text = '2 2\n1 2 0 4 1 4\n1 2 0 4 1 4\n';
    expect(solve(readInstance(text), EFFORT)).toMatchObject({ makespan: 4, bound: 4, proved: true });
  });
});
