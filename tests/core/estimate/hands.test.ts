import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { crewOf, handsFactor } from '#core/estimate/rules/hands.ts';
import { planJob } from '#core/estimate/rules/plan.ts';
import { bestWithin } from '#core/estimate/rules/stair.ts';
import { PAIR_STAGES } from '#core/shared/views/estimate.ts';
import { STAGE_KINDS } from '#core/shared/vocabulary.ts';
import { liveBoard } from '#core/views/liveBoard.ts';
import { type BayShop, openBayShop } from '#tests/core/bays/shop.ts';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { TEST_NOW } from '#tests/helpers/shop.ts';
import { allAt, caseOf, JOB } from './helpers.ts';

const BOTH = { ...JOB, two: ['cut', 'refine'] as const };

describe('two people on a stage', () => {
  test('take more minutes together than one, in less time', () => {
    // 2 / 1.8, written by hand.
    expect(handsFactor('cut', BOTH)).toBeCloseTo(1.1111, 4);
    expect(handsFactor('wash', BOTH)).toBe(1);
    const one = planJob(caseOf(), allAt(caseOf(), 'twoStage'));
    const c = caseOf({ job: BOTH });
    const two = planJob(c, allAt(c, 'twoStage'));
    const of = (plan: typeof one, kind: string) => {
      const stage = plan.stages.find((s) => s.kind === kind);
      if (!stage) throw new Error(`no ${kind}`);
      return stage;
    };
    expect([of(one, 'cut').crew, of(two, 'cut').crew, of(two, 'wash').crew]).toEqual([1, 2, 1]);
    expect(of(two, 'cut').estimatedMin / of(one, 'cut').estimatedMin).toBeCloseTo(2 / 1.8, 2);
    expect(of(two, 'cut').p50Min / 2).toBeLessThan(of(one, 'cut').p50Min);
    expect(of(two, 'wash').p50Min).toBe(of(one, 'wash').p50Min);
  });

  test('are both charged for', () => {
    const c = caseOf({ job: BOTH });
    const [one, two] = [planJob(caseOf(), allAt(c, 'twoStage')), planJob(c, allAt(c, 'twoStage'))];
    expect(two.labour).toBeGreaterThan(one.labour);
    expect(two.chargedMin).toBeGreaterThan(one.chargedMin);
    expect(two.materials).toBe(one.materials);
  });

  test('for any pair at work: never fewer minutes together, never longer than one alone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1_000_000, max: 1_990_000 }),
        fc.constantFrom(...STAGE_KINDS),
        (pairPpm, kind) => {
          const hands = { two: PAIR_STAGES, pairPpm };
          const factor = handsFactor(kind, hands);
          expect(factor).toBeGreaterThanOrEqual(1);
          expect(factor / crewOf(kind, hands)).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 41 },
    );
  });

  test('the best choice within a ceiling counts them all', () => {
    fc.assert(
      fc.property(fc.subarray([...PAIR_STAGES]), fc.integer({ min: 300, max: 1500 }), (two, ceiling) => {
        const c = caseOf({ job: { ...JOB, two } });
        const levels = bestWithin(c, 'hours', ceiling, false);
        if (levels) expect(planJob(c, levels).hours.meanMin).toBeLessThanOrEqual(ceiling + 1);
      }),
      { seed: 42, numRuns: 40 },
    );
  });
});

describe('at the counter', () => {
  let shop: BayShop;
  let job: PaintCase;
  beforeEach(() => {
    shop = openBayShop();
    job = addJob(shop);
    shop.write('estimate.provisional', { jobId: job.jobId, wish: 'twoStage', condition: 'worn' });
  });
  afterEach(() => shop.close());
  const newest = async () => (await shop.read('estimate.ofJob', { jobId: job.jobId }))[0];

  test('a stage is given to two, stays so in later versions, and is half as long at the car in the bay plan', async () => {
    const { jobId } = job;
    shop.write('estimate.hands', { jobId, two: ['cut'] });
    const cut = (await newest())?.stages.find((s) => s.kind === 'cut');
    expect(cut?.crew).toBe(2);
    shop.write('estimate.again', { jobId });
    expect((await newest())?.asked.two).toEqual(['cut']);
    const planned = liveBoard(shop.db, { nowMs: TEST_NOW, jobId })
      .board.jobs.get(jobId)
      ?.stages.find((s) => s.kind === 'cut');
    expect(planned).toMatchObject({ crew: 2, labourMin: Math.ceil((cut?.p50Min ?? 0) / 2) });
    expect(planned?.mu).toBeCloseTo((cut?.mu ?? 0) - Math.log(2), 9);
    shop.write('estimate.hands', { jobId, two: [] });
    expect((await newest())?.stages.every((s) => s.crew < 2)).toBe(true);
  });

  test('a final check is one person’s', async () => {
    const reply = await shop.call('estimate.hands', { jobId: job.jobId, two: ['finalCheck'] });
    expect(reply.ok).toBe(false);
  });
});
