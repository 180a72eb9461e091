import { expect, it } from 'vitest';
import { promises } from '#core/figures/rules/mondayPromises.ts';
import { WORKED_OUT } from '#core/flows/deskRisks.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import type { EpochMin, Ppm } from '#core/shared/units.ts';
import { agreedJob } from '../../helpers/billing.ts';
import { openTestShop } from '../../helpers/shop.ts';

it('of promises that no way out was looked for, Monday neither says that there is none nor counts a sum', async () => {
  const shop = openTestShop();
  const jobs = Array.from({ length: WORKED_OUT + 2 }, () => agreedJob(shop).jobId);
  const nowMin = shop.now() / 60_000;
  jobs.forEach((jobId, i) => {
    shop.db.raw
      .prepare(
        `UPDATE job SET state = 'inWork', arrived_ms = ?, drop_off_min = ?, pick_up_min = ? WHERE id = ?`,
      )
      .run(shop.now() - 3_600_000, nowMin - 60, nowMin - 30 + i, jobId);
  });
  const { things } = await shop.read('figures.monday', {});
  const thing = things.find((t) => t.kind === 'promises');
  const [first] = thing?.cases ?? [];
  const worth = thing ? thing.savedMinor / WORKED_OUT : 0;
  expect(first?.said.values['worth']).toMatchObject({ is: 'money', minor: worth });
  expect(worth).toBeGreaterThan(0);
  expect(thing).toMatchObject({ promises: WORKED_OUT + 2 });
  // Their time has passed, and nothing of them was ever placed.
  expect(first?.said.key).toBe('promises.passed');
  shop.close();
});

it('such a promise is told in words of its own, as is one that has passed or has no work on the board', () => {
  const job = { jobId: 'j', jobNumber: 7, customer: 'Marit Vane', worthMinor: 100 };
  const chance = { nowPpm: 400_000 as Ppm, bestPpm: 400_000 as Ppm, pickUpMin: 1 as EpochMin };
  const key = (stands: 'open' | 'passed' | 'noWork', remedy: 'untried' | 'later' | null) => {
    const thing = promises({ promises: [{ ...job, ...chance, stands, remedy }] } as never);
    const said = thing?.cases[0]?.said.key ?? '';
    expect(isTextKey(`monday.${said}`)).toBe(true);
    return said;
  };
  expect(key('open', 'untried')).toBe('promises.untried');
  // No chance is told of what has passed or was never placed.
  expect(key('passed', null)).toBe('promises.passed');
  expect(key('passed', 'later')).toBe('promises.passedLater');
  expect(key('noWork', null)).toBe('promises.noWork');
});
