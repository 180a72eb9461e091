import { describe, expect, it } from 'vitest';
import type { JobPlanView } from '#core/shared/views/plan.ts';
import { scaleOfMoves } from '../../renderer/features/bays/scaleOfMoves.ts';

const DAY = 1440;
function plan(startMin: number, dwellEndMin: number): JobPlanView {
  const piece = { startMin, endMin: startMin + 60, dwellEndMin } as JobPlanView['pieces'][number];
  return { jobId: 'j' as JobPlanView['jobId'], stays: [], pieces: [piece] };
}

describe('the time that a proposed plan is drawn over', () => {
  it('reaches from the first piece as it is to the last as proposed, weeks later', () => {
    const scale = scaleOfMoves([
      { before: plan(0, DAY), after: plan(30 * DAY, 31 * DAY) },
      { before: plan(2 * DAY, 3 * DAY), after: plan(3 * DAY, 4 * DAY) },
    ]);
    expect([scale.at(0), scale.at(31 * DAY)]).toEqual([0, 1]);
    expect(scale.at(30 * DAY)).toBeCloseTo(30 / 31, 9);
  });
});
