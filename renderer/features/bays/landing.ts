import type { BayId } from '#core/shared/ids.ts';
import type { SpanView } from '#core/shared/views/bays.ts';
import type { StayPlan } from '#core/shared/views/plan.ts';
import { type Check, freshOf, type Hand, shownOf } from './hand.ts';
import { type Held, QUARTER } from './held.ts';

const DAY = 24 * 60;

/**
 * Whether a block would come to lie elsewhere than it is held: it begins a quarter of an hour later or more, or ends more
 * than a day after the outline that was shown. Common practice, no source.
 */
export function isElsewhere(held: Held, check: Check): boolean {
  const lands = landsOf(held, check);
  if (!lands) return false;
  const late = lands.endMin - (held.startMin + held.lengthMin);
  return lands.startMin >= held.startMin + QUARTER || late > DAY;
}

/** Where the block itself would lie; null where nothing is said of that. */
export function landsOf(held: Held, check: Check): SpanView | null {
  if (!check.ok || !('plan' in check)) return null;
  const own = check.plan.pieces.filter((p) => held.stageIds.includes(p.stageId));
  const [first, last] = [own[0], own.at(-1)];
  return first && last ? { startMin: first.startMin, endMin: last.dwellEndMin } : null;
}

/** A stretch of an outline in a lane; that of the block in hand, or of the rest of its job that goes along. */
export type Outline = SpanView & { readonly own: boolean };

/**
 * What is outlined in a lane: the block where it really would lie, once that is known, and until then where it is held; with
 * its whole job, wherever else that would stand.
 */
export function outlinesIn(hand: Hand, bayId: BayId): readonly Outline[] {
  const { lifted } = hand;
  if (!lifted) return [];
  const { mode, piece, atMin, startMin } = lifted;
  if (mode === 'split' || mode === 'resize') {
    if (lifted.from.bayId !== bayId) return [];
    const drawn = mode === 'resize' ? { ...piece, endMin: atMin } : { ...piece, startMin: atMin };
    return [{ startMin: drawn.startMin, endMin: drawn.endMin, own: true }];
  }
  if (lifted.bayId !== bayId)
    return staysAlong(hand, bayId).map((s) => ({ startMin: s.arriveMin, endMin: s.leaveMin, own: false }));
  const check = freshOf(hand) && shownOf(hand);
  const lands = check ? landsOf(lifted, check) : null;
  const held = { startMin, endMin: (startMin + lifted.lengthMin) as typeof startMin };
  return [{ ...(lands ?? held), own: true }];
}

/** The places of the rest of a whole job that is held, as the core would lay them. */
function staysAlong(hand: Hand, bayId: BayId): readonly StayPlan[] {
  const check = shownOf(hand);
  if (hand.lifted?.mode !== 'whole' || !check?.ok || !('plan' in check)) return [];
  return check.plan.stays.filter((s) => s.bayId === bayId);
}
