import type { JobId, PersonId } from '#core/shared/ids.ts';
import type { BindingReason, OfferKind } from '#core/shared/views/offers.ts';
import { SKILLS, type StageKind } from '#core/shared/vocabulary.ts';
import { alwaysOpen, isOpen, type Span } from './calendar.ts';
import { isCoating, isCutting } from './dust.ts';
import { type Board, isOpenStage, type JobSpec, type StageSpec } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { type Ask, placerOf } from './placer.ts';

/** An offer to be explained: what was asked of its place, and the handover that is promised. */
export type Asked = { readonly kind: OfferKind; readonly ask: Ask; readonly pickUpMin: number };
/** The board with one limit lifted: another occupancy, other people or hours, or an easier job. */
type Lifted = {
  readonly beside?: Occupancy;
  readonly board?: Board;
  readonly job?: JobSpec;
  readonly ask?: Ask;
};

const ITSELF: BindingReason = { kind: 'workItself', names: [], gainMin: 0 };

/**
 * Which one limit keeps an offer's pick-up from being earlier: every limit is lifted on its own and the job placed
 * again. What others take up comes first (bays, people, room in the yard, clean air, who can do it); only where none of it
 * helps, the hours, the cure, distances in time, and what was asked for; last of all that cars are handed over at set
 * times. Where the promise waits for being sure by more than any of that, it is the sureness. A car that is here and could
 * be fetched sooner stands: that alone is the reason.
 */
export function whyNotEarlier(board: Board, job: JobSpec, asked: Asked): BindingReason {
  const own = occupancyOf(board, new Set([job.id]), board.nowMin);
  if (asked.ask.holdUntilMin !== undefined) return standsReason(board, job, own, asked);
  const now = placerOf(board, job, own)(asked.ask)?.pickUpMin;
  if (now === undefined) return ITSELF;
  const gain = (lifted: Lifted): number => {
    const there = lifted.board ?? board;
    const found = placerOf(there, lifted.job ?? job, lifted.beside ?? own)(lifted.ask ?? asked.ask);
    return found ? now - found.pickUpMin : 0;
  };
  const sure: BindingReason = { kind: 'sure', names: [], gainMin: asked.pickUpMin - now };
  const taken = greatest([
    ...takenReasons(board, job, own, gain),
    ...airReasons(board, job, own, gain),
    ...skillReason(board, job, gain),
    ...askedReason(board, asked, gain),
  ]);
  if (taken) return sure.gainMin > taken.gainMin ? sure : taken;
  return (
    ownReason(board, job, gain, sure) ?? { ...ITSELF, kind: asked.kind === 'day' ? 'day' : 'workItself' }
  );
}

/** It is ready sooner, by the plan alone, and stands until the day that was wanted or until it is sure. */
function standsReason(board: Board, job: JobSpec, own: Occupancy, asked: Asked): BindingReason {
  const { holdUntilMin: _, ...ask } = asked.ask;
  const free = placerOf(board, job, own)(ask)?.pickUpMin ?? asked.pickUpMin;
  const kind = asked.kind === 'surer' ? 'sure' : asked.kind === 'day' ? 'day' : 'stands';
  return { kind, names: [], gainMin: asked.pickUpMin - free };
}

type Gain = (lifted: Lifted) => number;

function greatest(reasons: readonly BindingReason[]): BindingReason | null {
  const best = reasons.reduce((a, b) => (b.gainMin > a.gainMin ? b : a), ITSELF);
  return best.gainMin > 0 ? best : null;
}

/** What other cars take up: the bays, the people, the yard. */
function takenReasons(board: Board, job: JobSpec, own: Occupancy, gain: Gain): readonly BindingReason[] {
  const empty = occupancyOf({ ...board, plans: new Map() }, new Set(), board.nowMin);
  const places = (free: (id: string) => boolean): Lifted => ({
    beside: { ...own, placeGaps: (id) => (free(id) ? empty : own).placeGaps(id) },
  });
  const people = (free: (id: string) => boolean): Lifted => ({
    beside: { ...own, personGaps: (id) => (free(id) ? empty : own).personGaps(id) },
  });
  const stages = job.stages.filter(isOpenStage);
  const bays = board.places.filter(
    (p) => p.kind !== 'yard' && stages.some((s) => s.bayKinds.includes(p.kind)),
  );
  const yards = board.places.filter((p) => p.kind === 'yard');
  const able = board.technicians.filter((t) => stages.some((s) => t.skills.includes(s.skill)));
  const isYard = (id: string): boolean => yards.some((y) => y.id === id);
  return [
    named('bays', bays, gain(places((id) => !isYard(id))), (one) => gain(places((id) => id === one))),
    named('people', able, gain(people(() => true)), (one) => gain(people((id) => id === one))),
    { kind: 'yard', names: [], gainMin: gain(places(isYard)) },
  ];
}

/** The one among several that would do alone, with what it alone would bring; all of them where only all would. */
function named(
  kind: BindingReason['kind'],
  rows: readonly { readonly id: string; readonly name: string }[],
  together: number,
  alone: (id: string) => number,
): BindingReason {
  if (together <= 0) return { ...ITSELF, kind };
  const each = rows.map((r) => ({ name: r.name, gainMin: alone(r.id) }));
  const best = each.reduce((a, b) => (b.gainMin > a.gainMin ? b : a), { name: '', gainMin: 0 });
  return best.gainMin > 0
    ? { kind, names: [best.name], gainMin: best.gainMin }
    : { kind, names: rows.map((r) => r.name), gainMin: together };
}

/** A skill that too few have: everybody could do it. */
function skillReason(board: Board, job: JobSpec, gain: Gain): readonly BindingReason[] {
  const wanted = new Set(job.stages.filter((s) => isOpenStage(s) && s.crew > 0).map((s) => s.skill));
  const can = (skill: string): Lifted => ({
    board: {
      ...board,
      technicians: board.technicians.map((t) => ({
        ...t,
        skills: SKILLS.filter((s) => s === skill || t.skills.includes(s)),
      })),
    },
  });
  return [...wanted].map((skill) => ({ kind: 'skill', names: [skill], gainMin: gain(can(skill)) }));
}

/** Somebody was asked for, and others would be sooner. */
function askedReason(board: Board, { ask }: Asked, gain: Gain): readonly BindingReason[] {
  const only: ReadonlySet<PersonId> | null = ask.people ?? null;
  if (!only) return [];
  const names = board.technicians.filter((t) => only.has(t.id)).map((t) => t.name);
  return [{ kind: 'asked', names, gainMin: gain({ ask: { ...ask, people: null } }) }];
}

/** Coatings of others that cure beside the cut, and others that are cut beside the coating. */
function airReasons(board: Board, job: JobSpec, own: Occupancy, gain: Gain): readonly BindingReason[] {
  if (board.places.every((p) => p.dustWith.length === 0)) return [];
  const without = (id: string): Occupancy => occupancyOf(board, new Set([job.id, id as JobId]), board.nowMin);
  const cars = (does: (kind: StageKind) => boolean) =>
    [...board.jobs.values()]
      .filter((j) => j !== job && j.id !== job.id && j.stages.some((s) => isOpenStage(s) && does(s.kind)))
      .map((j) => ({ id: j.id, name: j.who }));
  const clear = (): readonly Span[] => [];
  return [
    named('fresh', cars(isCoating), gain({ beside: { ...own, freshNear: clear } }), (id) =>
      gain({ beside: { ...own, freshNear: without(id).freshNear } }),
    ),
    named('dust', cars(isCutting), gain({ beside: { ...own, dustNear: clear } }), (id) =>
      gain({ beside: { ...own, dustNear: without(id).dustNear } }),
    ),
  ];
}

/** What no other car is to blame for: the desk's hours, the cure, distances in time; then hours of work; then set times. */
function ownReason(board: Board, job: JobSpec, gain: Gain, sure: BindingReason): BindingReason | null {
  const anyTime: Board = { ...board, desk: alwaysOpen(), slots: everyFive(board) };
  const always: Board = {
    ...anyTime,
    open: alwaysOpen(),
    technicians: board.technicians.map((t) => ({ ...t, hours: alwaysOpen() })),
  };
  const between = gain({ board: { ...board, slots: anyTime.slots.filter((s) => isOpen(board.desk, s)) } });
  const uncured = job.stages.map((s) => ({ ...s, dwellMin: 0, labourMin: s.crew === 0 ? 0 : s.labourMin }));
  // What set times alone would bring is not the fault of the hours.
  const byHours = (gainMin: number): number => (gainMin > between ? gainMin : 0);
  const near: readonly BindingReason[] = [
    { kind: 'deskHours', names: [], gainMin: byHours(gain({ board: anyTime })) },
    { kind: 'cure', names: [], gainMin: gain({ job: { ...job, stages: uncured } }) },
    ...gapReasons(job, gain),
    sure,
  ];
  return (
    greatest(near) ??
    greatest([{ kind: 'openHours', names: [], gainMin: byHours(gain({ board: always })) }]) ??
    greatest([{ kind: 'slots', names: [], gainMin: between }])
  );
}

/** Stages that keep a distance to the one after them, each on its own. */
function gapReasons(job: JobSpec, gain: Gain): readonly BindingReason[] {
  const keeps = (s: StageSpec): boolean => s.leastGapMin > 0 || s.mostGapMin !== null;
  return job.stages.filter(keeps).map((stage): BindingReason => {
    const free = job.stages.map((s) => (s === stage ? { ...s, leastGapMin: 0, mostGapMin: null } : s));
    return { kind: 'gap', names: [stage.kind], gainMin: gain({ job: { ...job, stages: free } }) };
  });
}

/** Every five minutes, as if the desk never closed, as far as the plan reaches. */
function everyFive(board: Board): readonly number[] {
  const from = Math.ceil(board.nowMin / 5);
  const count = Math.max(0, Math.floor(board.horizonMin / 5) - from);
  return Array.from({ length: count }, (_, i) => (from + i) * 5);
}
