import { expect, test } from 'vitest';
import { nextWhereItStands } from '#core/bays/rules/impossible.ts';
import type { BayId } from '#core/shared/ids.ts';
import { board, job, person, place, plansOf, stage, standing } from './boards.ts';

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
