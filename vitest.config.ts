import { defineConfig } from 'vitest/config';

const slow = { testTimeout: 60_000, hookTimeout: 60_000, fileParallelism: false } as const;

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'core',
          include: ['tests/{core,migrations,reference,boundaries,seed}/**/*.test.ts'],
          testTimeout: 20_000,
        },
      },
      { test: { name: 'bridge', include: ['tests/bridge/**/*.test.ts'], ...slow } },
      { test: { name: 'screens', include: ['tests/{renderer,e2e}/**/*.test.ts'], ...slow } },
      { test: { name: 'faults', include: ['tests/faults/**/*.test.ts'], ...slow } },
    ],
  },
});
