import type { ReadDb } from '../../db/types.ts';
import type { PlanFault } from '../../shared/views/plan.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';
import type { JobPlan } from '../rules/model.ts';
import { chanceBy } from '../rules/promise.ts';
import { meansFor } from '../rules/promised.ts';
import { memoryOf } from './ahead.ts';

/**
 * The questions to a customer, with how sure the new pick-up would be where that is less than the shop promises: a bold
 * promise is made because the desk wants it, not unseen. Whole percent, rounded down: never the share that is promised.
 */
export function withSureness(
  db: ReadDb,
  live: LiveBoard,
  plans: readonly JobPlan[],
  questions: readonly PlanFault[],
): readonly PlanFault[] {
  if (questions.every((q) => q.rule !== 'promiseMissed')) return questions;
  const moved = new Map(live.board.plans);
  for (const plan of plans) moved.set(plan.jobId, plan);
  const board = { ...live.board, plans: moved };
  return questions.map((question) => {
    const [job, plan] = [board.jobs.get(question.jobId), moved.get(question.jobId)];
    if (question.rule !== 'promiseMissed' || !job || !plan) return question;
    const ready = meansFor(board, job, memoryOf(db)).readyOf(plan);
    const ppm = chanceBy(ready, Number(question.words['newMin']));
    if (ready.length === 0 || ppm >= live.shop.settings.promises.levelPpm) return question;
    return { ...question, words: { ...question.words, sure: Math.floor(ppm / 10_000) } };
  });
}
