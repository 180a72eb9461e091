import { expect, test } from 'vitest';
import { BY_CONSENT } from '#core/bays/rules/consent.ts';
import type { JobPlan } from '#core/bays/rules/model.ts';
import { replan } from '#core/bays/rules/replan.ts';
import { faultsOfJob } from '#core/bays/rules/validate.ts';
import type { JobId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { later, planned } from './randomDay.ts';

test('whatever has gone wrong, nothing that a re-plan moves breaks a rule', () => {
  let moved = 0;
  for (let seed = 1; seed <= 150; seed += 1) {
    const random = seeded(seed);
    const b = later(planned(random), random);
    const consent = random() < 0.5 ? new Set<JobId>() : new Set(b.jobs.keys());
    const { plans, proved, after } = replan(b, { seed, iterations: 40, consent });
    if (proved) expect({ seed, ...after }).toMatchObject({ seed, broken: 0, behind: 0 });
    for (const j of b.jobs.values()) {
      const plan = plans.get(j.id) as JobPlan;
      if (plan === b.plans.get(j.id)) continue;
      moved += 1;
      const faults = faultsOfJob({ ...b, plans }, j, plan).filter((f) => !BY_CONSENT.includes(f.rule));
      expect({ seed, faults }).toEqual({ seed, faults: [] });
    }
  }
  expect(moved).toBeGreaterThan(180);
});
