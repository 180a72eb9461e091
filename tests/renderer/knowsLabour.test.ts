import { expect, it } from 'vitest';
import { knowsLabour } from '../../renderer/features/figures/parts.ts';

it('what labour cost is told wherever the margin is less by it, also where begun minutes hide its hours', () => {
  // 300 jobs of 59.5 minutes each and an hour more of one: whole minutes of each job come to less than those without cost.
  const sums = { workedMin: 300 * 59 + 60, unknownMin: 300 * 59.5 };
  expect(knowsLabour({ ...sums, labourMinor: 2850 })).toBe(true);
  expect(knowsLabour({ ...sums, labourMinor: 0 })).toBe(false);
  expect(knowsLabour({ workedMin: 120, unknownMin: 60, labourMinor: 0 })).toBe(true);
  expect(knowsLabour({ workedMin: 0, unknownMin: 0, labourMinor: 0 })).toBe(false);
});
