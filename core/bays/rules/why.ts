import type { PersonId } from '#core/shared/ids.ts';
import type { BindingReason, OfferKind } from '#core/shared/views/offers.ts';
import { SKILLS } from '#core/shared/vocabulary.ts';
import { alwaysOpen } from './calendar.ts';
import { type Board, isOpenStage, type JobSpec, type StageSpec } from './model.ts';
import { type Occupancy, occupancyOf } from './occupancy.ts';
import { type Ask, placerOf } from './placer.ts';

/** An offer to be explained: what was asked of its place. */
export type Asked = { readonly kind: OfferKind; readonly ask: Ask };
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
 * again. What others take up comes first (bays, people, room in the yard, who can do it); only where none of it helps,
 * the hours, the cure, and what was asked for.
 */
export function whyNotEarlier(board: Board, job: JobSpec, asked: Asked): BindingReason {
  const own = occupancyOf(board, new Set([job.id]), board.nowMin);
  const now = placerOf(board, job, own)(asked.ask)?.pickUpMin;
  if (now === undefined) return ITSELF;
  const gain = (lifted: Lifted): number => {
    const there = lifted.board ?? board;
    const found = placerOf(there, lifted.job ?? job, lifted.beside ?? own)(lifted.ask ?? asked.ask);
    return found ? now - found.pickUpMin : 0;
  };
  const taken = [
    ...takenReasons(board, job, own, gain),
    ...skillReason(board, job, gain),
    ...askedReason(board, asked, gain),
  ];
  return (
    greatest(taken) ??
    greatest(ownReasons(board, job, gain)) ?? { ...ITSELF, kind: asked.kind === 'day' ? 'day' : 'workItself' }
  );
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

/** What no other car is to blame for: the desk's hours, the cure, the hours in which work is done. */
function ownReasons(board: Board, job: JobSpec, gain: Gain): readonly BindingReason[] {
  const anyTime: Board = { ...board, desk: alwaysOpen(), slots: everyQuarter(board) };
  const always: Board = {
    ...anyTime,
    open: alwaysOpen(),
    technicians: board.technicians.map((t) => ({ ...t, hours: alwaysOpen() })),
  };
  const uncured = (s: StageSpec): StageSpec => ({
    ...s,
    dwellMin: 0,
    labourMin: s.crew === 0 ? 0 : s.labourMin,
  });
  const near = [
    { kind: 'deskHours' as const, names: [], gainMin: gain({ board: anyTime }) },
    { kind: 'cure' as const, names: [], gainMin: gain({ job: { ...job, stages: job.stages.map(uncured) } }) },
  ];
  if (greatest(near)) return near;
  return [{ kind: 'openHours', names: [], gainMin: gain({ board: always }) }];
}

/** Every quarter of an hour, as if the desk never closed, as far as the plan reaches. */
function everyQuarter(board: Board): readonly number[] {
  const from = Math.ceil(board.nowMin / 15);
  const count = Math.max(0, Math.floor(board.horizonMin / 15) - from);
  return Array.from({ length: count }, (_, i) => (from + i) * 15);
}
