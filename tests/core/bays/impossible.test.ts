import { afterEach, expect, test } from 'vitest';
import { refuseImpossible } from '#core/bays/commands/offers.ts';
import { nextWhereItStands } from '#core/bays/rules/impossible.ts';
import type { BayId } from '#core/shared/ids.ts';
import { liveBoard } from '#core/views/liveBoard.ts';
import { board, job, person, place, plansOf, stage, standing } from './boards.ts';
import { type BayShop, openBayShop } from './shop.ts';

test('a car that is here and fits nowhere any more names who is planned next where it stands', () => {
  const start = { kind: 'here', bayId: 'bay' as BayId, fromMin: 60 } as const;
  const here = job('j', [stage('s', 240)], { start });
  const plans = plansOf([
    standing('j', 'bay', 0, 100),
    standing('later', 'bay', 400, 900),
    standing('next', 'bay', 100, 400),
    standing('gone', 'bay', -300, 0),
    standing('beside', 'other', 50, 900),
  ]);
  const jobs = new Map(['next', 'later'].map((id) => [job(id, []).id, job(id, [])]));
  const places = [place('bay', 'correction'), place('other', 'wash')];
  const b = board({ places, technicians: [person('ann')], plans, jobs });
  expect(nextWhereItStands(b, here)).toEqual({ bay: 'bay', other: 'next', atMin: 100 });
  expect(nextWhereItStands(b, job('j', []))).toBeNull();
});

test('a car in the yard has nobody in its way: others stand beside it', () => {
  const start = { kind: 'here', bayId: 'yard' as BayId, fromMin: 60 } as const;
  const here = job('j', [stage('s', 240)], { start });
  const plans = plansOf([standing('j', 'yard', 0, 100), standing('next', 'yard', 100, 400)]);
  const b = board({ places: [place('yard', 'yard', 6)], technicians: [person('ann')], plans });
  expect(nextWhereItStands(b, here)).toBeNull();
});

const opened: BayShop[] = [];
afterEach(() => {
  for (const shop of opened.splice(0)) shop.close();
});

test('a re-plan is named as a way out only for a car whose work is placed: it leaves others alone', () => {
  const shop = openBayShop();
  opened.push(shop);
  const start = { kind: 'here', bayId: 'c' as BayId, fromMin: 60 } as const;
  const here = job('j', [stage('s', 240)], { start });
  const worked = { bayId: 'c' as BayId, personIds: [], startMin: 0, endMin: 60, dwellEndMin: 60 };
  const placed = { ...standing('j', 'c', 0, 100), pieces: [{ ...worked, stageId: stage('s', 1).id }] };
  const said = (own = placed): string => {
    const plans = plansOf([own, standing('next', 'c', 100, 400)]);
    const b = board({ places: [place('c', 'correction')], technicians: [person('ann')], plans });
    try {
      return refuseImpossible({ ...liveBoard(shop.db, { nowMs: 0 }), board: b }, here);
    } catch (refusal) {
      return JSON.stringify(refusal);
    }
  };
  expect(said()).toContain('fits nowhere. A re-plan may move those');
  expect(said({ ...placed, pieces: [] })).toContain('fits nowhere"');
});
