import { expect, test } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import type { BlockView, PieceView } from '#core/shared/views/bays.ts';
import type { ChangeCheck, PlanFault } from '#core/shared/views/plan.ts';
import { freshOf, holds, onceWritten } from '../../renderer/features/bays/hand.ts';
import { heldKeys } from '../../renderer/features/bays/heldKeys.ts';
import type { Changes } from '../../renderer/features/bays/useChanges.ts';
import { handsOver } from '../../renderer/features/bays/useHands.ts';

const piece = (stageId: string): PieceView =>
  ({
    ...{ stageId, state: 'planned', kind: 'cut', personIds: ['ann'], splittable: true },
    ...{ startMin: 600, endMin: 720, dwellEndMin: 720 },
  }) as unknown as PieceView;
const block = (jobId: string): BlockView =>
  ({ jobId, who: jobId, bayId: 'b', pieces: [piece(`of ${jobId}`)] }) as unknown as BlockView;
const fault = { rule: 'promiseMissed', jobId: 'a', bayId: null, personId: null, words: {} } as PlanFault;
const asks = { ok: true, lands: [], needsConsent: [fault] } as ChangeCheck;
const yes = { ok: true, lands: [], needsConsent: [] } as ChangeCheck;
const later = () => new Promise((go) => setTimeout(go));

function hand() {
  const made: { consent: boolean; is: (revision: number | null) => void }[] = [];
  const changes = {
    make: (_: unknown, yes: unknown) =>
      new Promise<number | null>((is) => made.push({ consent: yes !== null, is })),
    refusal: null,
    clear: () => undefined,
  } as unknown as Changes;
  const hands = handsOver({ current: { board: undefined, changes } });
  const answer = (check: ChangeCheck) => {
    const { lifted } = hands.get();
    if (lifted) hands.answered({ to: lifted, check, swapWith: null, error: null });
  };
  return { hands, made, answer };
}

test('a yes to what is asked again is a yes to nothing: it waits for the new answer, and asks once more', () => {
  const { hands, made, answer } = hand();
  hands.lift(block('a'));
  answer(asks);
  const { lifted } = hands.get();
  expect(freshOf(hands.get())?.check).toBe(asks);
  if (lifted) hands.askedAgain(lifted);
  expect(freshOf(hands.get())).toBeNull();
  hands.drop(true);
  expect([hands.get().dropped, made.length]).toEqual(['waits', 0]);
  answer(asks);
  expect([hands.get().stayed, made.length]).toEqual(['no', 0]);
  hands.drop(true);
  expect(made.map((m) => m.consent)).toEqual([true]);
});

test('a drag that begins while another car is on its way into the file moves neither of them', async () => {
  const { hands, made, answer } = hand();
  hands.lift(block('a'));
  answer(yes);
  hands.drop();
  hands.lift(block('b'));
  made[0]?.is(null);
  await later();
  expect(hands.get().lifted?.jobId).toBe('a');
  expect([holds(hands.get(), 'a' as JobId), holds(hands.get(), 'b' as JobId)]).toEqual([true, false]);
});

test('taking back waits for what is being written, and leaves what was before it where that is refused', async () => {
  for (const [revision, times] of [
    [2, 1],
    [null, 0],
  ] as const) {
    const { hands, made, answer } = hand();
    hands.lift(block('a'));
    answer(yes);
    hands.drop();
    let undone = 0;
    onceWritten(hands, () => {
      undone += 1;
    });
    expect(undone).toBe(0);
    made[0]?.is(revision);
    await later();
    await later();
    expect(undone).toBe(times);
  }
});

test('a drop that still waits for its answer is what is taken back', () => {
  const { hands, made, answer } = hand();
  hands.lift(block('a'));
  expect(hands.callBack()).toBe(false);
  hands.drop();
  const { lifted } = hands.get();
  expect(hands.callBack()).toBe(true);
  expect(hands.get()).toMatchObject({ lifted: null, dropped: null });
  if (lifted) hands.answered({ to: lifted, check: yes, swapWith: null, error: null });
  answer(yes);
  expect(made).toEqual([]);
});

test('Enter on the next car is its own once the last one is in the file, though the board does not show that yet', async () => {
  const { hands, made, answer } = hand();
  let swallowed = 0;
  const enter = {
    key: 'Enter',
    shiftKey: false,
    preventDefault: () => (swallowed += 1),
    stopPropagation: later,
  };
  hands.lift(block('a'));
  answer(yes);
  heldKeys(enter, hands);
  expect([made.length, swallowed]).toEqual([1, 1]);
  heldKeys(enter, hands);
  expect([made.length, swallowed]).toEqual([1, 2]);
  made[0]?.is(2);
  await later();
  expect(hands.get().dropped).toEqual({ planRevision: 2 });
  heldKeys(enter, hands);
  expect(swallowed).toBe(2);
});
