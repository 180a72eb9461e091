import type { OfferKind } from '#core/shared/views/offers.ts';
import { lastAtOrBelow } from './calendar.ts';
import type { Choice, OfferWish } from './choice.ts';
import type { Board, JobSpec } from './model.ts';
import { slotFrom } from './offers.ts';
import type { Ask } from './placer.ts';
import { promiseSlot } from './promise.ts';
import { type Means, meansFor, promisedAt } from './promised.ts';

/** As sure as anybody wants it: one customer in twenty waits. Common practice, no source. */
const SURER_PPM = 950_000;
/** Days on which it might be fetched that are tried. */
const DAYS_TRIED = 12;

type Here = {
  readonly board: Board;
  readonly job: JobSpec;
  readonly means: Means;
  readonly levelPpm: number;
};

/**
 * Dates for a car that is here: its drop-off is past, so they differ in when it is fetched. The soonest, the technician
 * and the day that were asked for, one that is surer, and the first handover of the next days until there are `count`.
 * A later one is offered only where the car can stand until then. Empty when the work fits nowhere before the horizon.
 */
export function offersHere(board: Board, job: JobSpec, wish: OfferWish): readonly Choice[] {
  const here: Here = { board, job, means: meansFor(board, job, { others: null }), levelPpm: wish.levelPpm };
  const now: Ask = { notBeforeMin: wish.notBeforeMin };
  const soonest = choiceOf(here, 'soonestBack', now);
  if (!soonest) return [];
  const kept: Choice[] = [soonest];
  for (const next of laterOnes(here, soonest, wish)) {
    if (kept.length >= Math.max(1, wish.count)) break;
    if (next && !kept.some((k) => isSame(k, next))) kept.push(next);
  }
  return kept.toSorted((a, b) => a.pickUpMin - b.pickUpMin);
}

function* laterOnes(here: Here, soonest: Choice, wish: OfferWish): Generator<Choice | null> {
  const { board } = here;
  const { day, technicianId, notBeforeMin } = wish;
  const until = (holdUntilMin: number): Ask => ({ notBeforeMin, holdUntilMin });
  if (technicianId) yield choiceOf(here, 'technician', { notBeforeMin, people: new Set([technicianId]) });
  if (day) {
    const onDay = choiceOf(here, 'day', until(slotFrom(board, Math.max(day.startMin, soonest.pickUpMin))));
    yield onDay && onDay.pickUpMin >= day.startMin && onDay.pickUpMin < day.endMin ? onDay : null;
  }
  const sureMin = promiseSlot(board, soonest.ready, SURER_PPM);
  if (sureMin > soonest.pickUpMin) yield choiceOf({ ...here, levelPpm: SURER_PPM }, 'surer', until(sureMin));
  const from = lastAtOrBelow(board.desk.starts, soonest.pickUpMin) + 1;
  for (const start of board.desk.starts.slice(from, from + DAYS_TRIED))
    yield choiceOf(here, 'later', until(slotFrom(board, start)));
}

function choiceOf({ board, means, levelPpm }: Here, kind: OfferKind, ask: Ask): Choice | null {
  if (!Number.isFinite(ask.holdUntilMin ?? 0)) return null;
  const placement = means.place(ask);
  return placement && { kind, ask, ...promisedAt(board, placement, levelPpm, means) };
}

function isSame(a: Choice, b: Choice): boolean {
  const crew = ({ placement }: Choice): string =>
    placement.plan.pieces.map((p) => p.personIds.join()).join('/');
  return a.pickUpMin === b.pickUpMin && (b.kind !== 'technician' || crew(a) === crew(b));
}
