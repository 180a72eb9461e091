import { expect, test } from 'vitest';
import { isAtRisk } from '#core/bays/rules/promise.ts';

test('a promise is at risk below three quarters of what it was made with, a bold one by its own measure', () => {
  expect([600_000, 599_999].map((now) => isAtRisk(now, 800_000))).toEqual([false, true]);
  expect([375_000, 374_999].map((now) => isAtRisk(now, 500_000))).toEqual([false, true]);
});
