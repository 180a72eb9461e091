import { afterAll, beforeAll, expect, it } from 'vitest';
import { figuresChecks } from '#core/doctor/figuresChecks.ts';
import { keepDays } from '#core/figures/commands/keepDays.ts';
import { batchDoorOver } from '#core/host/batchDoor.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { buildDemo, demoNow, SEED } from '../../../seed/build.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';
import { told, worked } from './keptShop.ts';

const HISTORY_DAYS = 8;
const QUARTER = 6 * 3_600_000;
let shop: TestShop;
beforeAll(() => {
  shop = openTestShop({ empty: true });
});
afterAll(() => shop.close());

it('the demo shop’s own commands leave no kept day that its records would tell otherwise', () => {
  const { db } = shop;
  const nowMs = demoNow('2026-11-25' as LocalDay);
  const door = batchDoorOver(db, SEED, 0);
  let [kept, turns] = [0, 0];
  // Four times a day the shop is left alone, and days are written in that later commands change again.
  const at = (ms: number): void => {
    door.at(ms);
    if (ms - kept < QUARTER) return;
    kept = ms;
    while (keepDays(db, ms)) turns += 1;
    turns += 1;
  };
  door.batch(() => buildDemo({ ...door, at }, { nowMs, historyDays: HISTORY_DAYS }, () => {}));
  expect(turns).toBeGreaterThan(HISTORY_DAYS);
  const then = { ...shop, now: () => nowMs as EpochMs };
  expect(db.raw.prepare('SELECT count(*) FROM kept_day').pluck().get()).toBeGreaterThan(5);
  expect(told(then)).toEqual(worked(then));
  expect(figuresChecks.flatMap((check) => check.run(db))).toEqual([]);
});
