import { mannerFor } from '../../shared/text/manner.ts';
import { ruleSentence } from '../../shared/text/planRule.ts';
import { say } from '../../shared/text/say.ts';
import { MS_PER_MIN } from '../../shared/units.ts';
import type { PlanFault } from '../../shared/views/plan.ts';
import type { LiveBoard } from '../../views/liveBoard.ts';

/** A broken rule as a sentence, in the shop's language, as it is said now. */
export function faultSentence(fault: PlanFault, { shop, board }: Pick<LiveBoard, 'shop' | 'board'>): string {
  const manner = mannerFor(shop);
  return ruleSentence(
    (key, values) => say(manner.locale, key, values),
    manner,
    fault,
    board.nowMin * MS_PER_MIN,
  );
}
