import { defineConfig } from 'vitest/config';

/** Tests that start programs and browsers: one file at a time, or they starve each other on two cores. */
const slow = {
  testTimeout: 60_000,
  hookTimeout: 60_000,
  fileParallelism: false,
  isolate: false,
  expect: { poll: { timeout: 15_000 } },
} as const;

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'core',
          include: ['tests/{core,migrations,reference,boundaries,seed}/**/*.test.ts'],
          // Loading the core anew for each of its files took half of the time. It keeps nothing between calls.
          isolate: false,
          testTimeout: 60_000,
          // A shop in full work is set up before some files: far from this long, but machines are busy now and then.
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'bridge',
          include: ['tests/bridge/**/*.test.ts'],
          ...slow,
          sequence: { groupOrder: 1 },
        },
      },
      {
        test: {
          name: 'screens',
          include: ['tests/{renderer,e2e}/**/*.test.{ts,tsx}'],
          ...slow,
          sequence: { groupOrder: 2 },
        },
      },
      {
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          ...slow,
          testTimeout: 600_000,
          sequence: { groupOrder: 3 },
        },
      },
    ],
  },
});
