import { expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { ChangeCheck, PlanFault } from '#core/shared/views/plan.ts';
import { checkShown } from '../../renderer/features/bays/hand.ts';

const whose = { jobId: 'j' as JobId, bayId: null, personId: null };
const fault: PlanFault = { ...whose, rule: 'promiseMissed', words: {} };
const asks: ChangeCheck = { ok: true, lands: [], needsConsent: [fault] };
const no: ChangeCheck = { ok: false, fault, nearest: [] };

test('what was answered of the place before is a yes at most, and nothing that was agreed to', () => {
  expect(checkShown(asks, false)).toEqual({ ok: true, lands: [], needsConsent: [] });
  expect(checkShown(no, false)).toBeNull();
  expect(checkShown(null, false)).toBeNull();
});

test('what was answered of the place itself is shown as it is', () => {
  expect([checkShown(asks, true), checkShown(no, true)]).toEqual([asks, no]);
});
