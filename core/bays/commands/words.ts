import { mannerFor } from '../../shared/text/manner.ts';
import { ruleSentence } from '../../shared/text/planRule.ts';
import { say } from '../../shared/text/say.ts';
import type { PlanFault } from '../../shared/views/bays.ts';
import type { Shop } from '../../shared/views/shop.ts';

/** A broken rule as a sentence, in the shop's language. */
export function faultSentence(fault: PlanFault, shop: Shop): string {
  const manner = mannerFor(shop);
  return ruleSentence((key, values) => say(manner.locale, key, values), manner, fault);
}
