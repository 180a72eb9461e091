import type { OfferKind } from '#core/shared/views/offers.ts';
import { lastAtOrBelow } from './calendar.ts';
import type { Choice, OfferWish } from './choice.ts';
import { offersHere } from './choicesHere.ts';
import type { Board, JobSpec } from './model.ts';
import type { Placement } from './offers.ts';
import type { Memory } from './others.ts';
import { type Ask, arriveOf, awayOf, lastDropOff, type Placing } from './placer.ts';
import { meansFor, promisedAt } from './promised.ts';

/** What an offer was found by: the kind it is of, and what was asked of its place. */
type Found = { readonly kind: OfferKind; readonly ask: Ask; readonly placement: Placement };

/** Drop-offs tried: from each of the next days on which the desk opens. */
const DAYS_TRIED = 24;
/** Half a working day: less of a difference is not worth an offer of its own. Common practice, no source. */
const HALF_DAY_MIN = 240;
/** Offers simulated beyond those that are shown, since some turn out to be worse than others in everything. */
const SPARE = 4;

/**
 * Dated offers that differ in kind: soonest back, the named day, the named technician, soonest in, least waiting, then
 * later ones until there are `count`. Unless it was asked for, none is away around another one's whole time, and none is
 * later in, later back and longer away than all before it. A car that is here has dates of its own. Empty when the job fits nowhere before the horizon.
 */
export function offersFor(
  board: Board,
  job: JobSpec,
  wish: OfferWish,
  memory: Memory = { others: null },
): readonly Choice[] {
  if (job.start.kind === 'here') return offersHere(board, job, wish);
  const kept: Choice[] = [];
  const tried: Placement[] = [];
  const means = meansFor(board, job, memory);
  for (const found of candidates({ board, job, place: means.place }, wish)) {
    if (kept.length >= Math.max(1, wish.count) || tried.length >= wish.count + SPARE) break;
    if (tried.some((t) => sameOffer(t, found.placement)) || isHopeless(found, kept)) continue;
    tried.push(found.placement);
    const { kind, ask } = found;
    const choice = { kind, ask, ...promisedAt(board, found.placement, wish.levelPpm, means) };
    if (!addsNothing(choice, kept)) kept.push(choice);
  }
  return soonestFirst(kept);
}

/**
 * Worse by its plain plan than all that are kept, so that it need not be simulated: its promise is never sooner than the
 * pick-up that it is planned for.
 */
function isHopeless(found: Found, kept: readonly Choice[]): boolean {
  return addsNothing({ ...found, ready: [], pickUpMin: found.placement.pickUpMin }, kept);
}

function isAsked({ kind }: Choice): boolean {
  return kind === 'day' || kind === 'technician';
}

/** Away around all the time that another one is away, and so worse; who wants to bring it early has that for it. */
function isAround(a: Choice, b: Choice): boolean {
  const [inA, inB] = [arriveOf(a.placement), arriveOf(b.placement)];
  if (a.kind === 'soonestIn') return a.pickUpMin >= b.pickUpMin && inA >= inB;
  return a.pickUpMin >= b.pickUpMin && inA <= inB;
}

/** Later in, later back and away for longer: nothing is better about it. */
function isWorse(a: Choice, b: Choice): boolean {
  const [inA, inB] = [arriveOf(a.placement), arriveOf(b.placement)];
  const longer = a.pickUpMin - inA - (b.pickUpMin - inB);
  return inA >= inB && a.pickUpMin >= b.pickUpMin && longer > HALF_DAY_MIN;
}

function addsNothing(choice: Choice, kept: readonly Choice[]): boolean {
  if (isAsked(choice) || kept.length === 0) return false;
  return kept.some((k) => isAround(choice, k)) || kept.every((k) => isWorse(choice, k));
}

/**
 * What is surest may not be what the plain plan has back first: the offer that is promised soonest comes first and is
 * called so, and what is worse than it in everything is left out.
 */
function soonestFirst(kept: readonly Choice[]): readonly Choice[] {
  const free = kept.filter((k) => !isAsked(k));
  const best = free.toSorted((a, b) => a.pickUpMin - b.pickUpMin)[0];
  if (!best || best.kind === 'soonestBack') return kept;
  const shown: Choice[] = [{ ...best, kind: 'soonestBack' }];
  for (const k of kept) {
    const named: Choice = k.kind === 'soonestBack' ? { ...k, kind: 'later' } : k;
    if (k !== best && !addsNothing(named, shown)) shown.push(named);
  }
  return shown;
}

/** Everything that may become an offer, in the order in which it is wanted. */
function* candidates(on: Placing, wish: OfferWish): Generator<Found> {
  const { place } = on;
  const now: Ask = { notBeforeMin: wish.notBeforeMin };
  const first = place(now);
  if (!first) return;
  const soonest = lastDropOff(on, first, now);
  yield { kind: 'soonestBack', ask: now, placement: soonest };
  yield* askedFor(on, wish);
  const early = place({ ...now, comesEarly: true });
  const asSoon = early?.pickUpMin === soonest.pickUpMin;
  if (early && asSoon && arriveOf(soonest) - arriveOf(early) >= HALF_DAY_MIN)
    yield { kind: 'soonestIn', ask: { ...now, comesEarly: true }, placement: early };
  const later = laterOnes(on, wish.notBeforeMin);
  const short = later.toSorted((a, b) => awayOf(a.placement) - awayOf(b.placement))[0];
  if (short && awayOf(soonest) - awayOf(short.placement) >= HALF_DAY_MIN)
    yield { ...short, kind: 'leastWaiting' };
  yield* later.filter((f) => arriveOf(f.placement) > arriveOf(soonest));
}

/** The soonest from each of the next days on. One that comes after a later day has begun is the soonest from that on too. */
function laterOnes({ board, place }: Placing, fromMin: number): readonly Found[] {
  const found: Found[] = [];
  let comesMin = Number.NEGATIVE_INFINITY;
  for (const notBeforeMin of releasesAfter(board, fromMin)) {
    if (notBeforeMin <= comesMin) continue;
    const placement = place({ notBeforeMin });
    if (!placement) break;
    comesMin = arriveOf(placement);
    found.push({ kind: 'later', ask: { notBeforeMin }, placement });
  }
  return found;
}

function* askedFor(on: Placing, wish: OfferWish): Generator<Found> {
  const { board, place } = on;
  const { day, technicianId, notBeforeMin } = wish;
  const onDay: Ask = { notBeforeMin: Math.max(day?.startMin ?? 0, notBeforeMin, board.nowMin) };
  const there = day ? place(onDay) : null;
  if (day && there && arriveOf(there) < day.endMin) yield { kind: 'day', ask: onDay, placement: there };
  const byOne: Ask = { notBeforeMin, people: technicianId ? new Set([technicianId]) : null };
  const theirs = technicianId ? place(byOne) : null;
  if (theirs) yield { kind: 'technician', ask: byOne, placement: lastDropOff(on, theirs, byOne) };
}

function releasesAfter(board: Board, notBeforeMin: number): readonly number[] {
  const at = lastAtOrBelow(board.desk.starts, Math.max(notBeforeMin, board.nowMin));
  return board.desk.starts.slice(at + 1, at + 1 + DAYS_TRIED);
}

function sameOffer(a: Placement, b: Placement): boolean {
  return a.pickUpMin === b.pickUpMin && arriveOf(a) === arriveOf(b) && crewOf(a) === crewOf(b);
}
function crewOf(p: Placement): string {
  return p.plan.pieces.map((x) => x.personIds.join()).join('/');
}
