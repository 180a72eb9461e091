import type { Calendar } from '#core/bays/rules/calendar.ts';
import type { Board, JobPlan, JobSpec, StageSpec, Technician } from '#core/bays/rules/model.ts';
import type { JobId } from '#core/shared/ids.ts';

/**
 * Every plan that a job can have, minute by minute, and of several jobs every way to have one beside the other. It shares
 * only the types with the search it checks. For boards of a few minutes from 0, with cars still to come and cars that are here.
 */
/** What it claims, a bit for each minute of a place or a person, and what it adds to a score. */
type Way = { readonly bits: bigint; readonly cost: readonly number[] };
type State = {
  readonly done: number;
  readonly at: number;
  readonly t: number;
  readonly workFrom: number;
  readonly owes: boolean;
  readonly ready: number;
  readonly bits: bigint;
};

/** Asked, weighed minutes late, touched and finishes of the best plans of all jobs on the board; null when there are none. */
export function bestOfAll(shop: Board, consent: ReadonlySet<JobId>): readonly number[] | null {
  const board = bySpaces(shop);
  const ways = [...board.jobs.values()].map((job) => waysOf(board, job, consent));
  let best: readonly number[] | null = null;
  const walk = (at: number, bits: bigint, cost: readonly number[]): void => {
    const own = ways[at];
    if (!own) {
      best = cost;
      return;
    }
    for (const way of own) {
      const more = sum(cost, way.cost);
      if (best && !isLess(more, best)) return;
      if ((way.bits & bits) === 0n) walk(at + 1, bits | way.bits, more);
    }
  };
  walk(0, 0n, [0, 0, 0, 0]);
  return best;
}

/** Each place as many times as it holds cars: a space holds one, and any stays side by side find a space each. */
function bySpaces(board: Board): Board {
  const places = board.places.flatMap((p) =>
    Array.from({ length: p.capacity }, () => ({ ...p, capacity: 1 })),
  );
  return { ...board, places };
}

export function sum(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.map((value, i) => value + (b[i] ?? 0));
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at >= 0 && (a[at] ?? 0) < (b[at] ?? 0);
}

/** All ways of a job, cheapest first. */
function waysOf(board: Board, job: JobSpec, consent: ReadonlySet<JobId>): readonly Way[] {
  const old = board.plans.get(job.id) as JobPlan;
  const found = new Map<bigint, readonly number[]>();
  const keep = (bits: bigint, cost: readonly number[]): void => {
    const known = found.get(bits);
    if (!known || isLess(cost, known)) found.set(bits, cost);
  };
  const late = (ready: number): number => Math.max(0, ready - (job.promiseMin ?? Number.POSITIVE_INFINITY));
  const oldReady = readyOf(old);
  if (canStay(board, job, old))
    for (const bits of bitsOf(board, old)) keep(bits, [0, late(oldReady) * job.lateWeight, 0, oldReady]);
  const agreed = job.start.kind === 'agreed' ? job.start.dropOffMin : null;
  for (const { arrive, states } of beginnings(board, job, old)) {
    if (agreed !== null && arrive < agreed && !consent.has(job.id)) continue;
    const moved = agreed !== null && arrive !== agreed;
    everyWay(board, job, states, consent.has(job.id) ? 0 : (job.promiseMin ?? 0), (bits, ready) => {
      const asked = job.confirmed && !consent.has(job.id) && (moved || late(ready) > late(oldReady));
      keep(bits, [asked ? 1 : 0, late(ready) * job.lateWeight, job.confirmed ? 1 : 0, ready]);
    });
  }
  const all = [...found].map(([bits, cost]): Way => ({ bits, cost }));
  return all.sort((a, b) => (isLess(a.cost, b.cost) ? -1 : isLess(b.cost, a.cost) ? 1 : 0));
}

type Beginning = { readonly arrive: number; readonly states: readonly State[] };

/** Every drop-off with the places that it may be in; a car that is here goes on from where it stands when its work is over. */
function beginnings(board: Board, job: JobSpec, old: JobPlan): readonly Beginning[] {
  if (job.start.kind === 'here') return [{ arrive: 0, states: fromHere(board, job, old) }];
  return board.slots.map((arrive) => ({ arrive, states: arrivals(board, job, arrive) }));
}

function arrivals(board: Board, job: JobSpec, arrive: number): readonly State[] {
  return board.places.flatMap((p, at): State[] => {
    if (p.kind !== 'yard' && !job.stages[0]?.bayKinds.includes(p.kind)) return [];
    const workFrom = arrive + board.moveMin + p.setupMin;
    if (!hasRoom(board, at, arrive)) return [];
    return [{ done: 0, at, t: arrive, workFrom, owes: false, ready: 0, bits: 0n }];
  });
}

function fromHere(board: Board, { start, stages }: JobSpec, old: JobPlan): readonly State[] {
  if (start.kind !== 'here') return [];
  const begun = stages.filter((s) => s.state !== 'planned').map((s) => s.id);
  const pieces = old.pieces.filter((p) => begun.includes(p.stageId));
  const t = Math.max(0, start.fromMin);
  const ready = Math.max(0, ...pieces.map((p) => p.dwellEndMin));
  let held = 0n;
  for (const p of pieces)
    for (const id of p.personIds) held |= claimed(board, personAt(board, id), p.startMin, p.endMin);
  return spacesOf(board, start.bayId).flatMap((at): State[] => {
    if (minutes(0, t).some((m) => !hasRoom(board, at, m))) return [];
    // Nobody else is driven in there this very minute.
    const bits = held | claimed(board, at, 0, Math.max(1, t));
    return [{ done: begun.length, at, t, workFrom: t, owes: false, ready, bits }];
  });
}

function readyOf(plan: JobPlan): number {
  return Math.max(...plan.pieces.map((p) => p.dwellEndMin));
}

/** Whether its places are open and its people there, but for the minute that the shop's own check lets go for rounding. */
function canStay(board: Board, job: JobSpec, plan: JobPlan): boolean {
  const there = plan.stays.every((s) =>
    board.places.some(
      (p) =>
        p.id === s.bayId &&
        p.closed.every((c) => c.endMin <= Math.max(0, s.arriveMin) || c.startMin >= s.leaveMin),
    ),
  );
  return (
    there &&
    plan.pieces.every((p) => {
      const stage = job.stages.find((s) => s.id === p.stageId);
      if (stage && stage.state !== 'planned') return true;
      const crew = board.technicians.filter((t) => p.personIds.includes(t.id));
      const worked = minutes(p.startMin, p.endMin).filter((t) => crew.every((c) => isOpen(c.hours, t)));
      return (
        p.startMin >= board.nowMin &&
        (stage?.crew === 0 ||
          ((stage?.splittable === false
            ? worked.length === p.endMin - p.startMin
            : worked.length >= (stage?.labourMin ?? 0) - 1) &&
            crew.every((c) => isOpen(c.hours, p.startMin))))
      );
    })
  );
}

/** What a plan claims, for every choice of spaces in its places. */
function bitsOf(board: Board, plan: JobPlan): readonly bigint[] {
  let people = 0n;
  for (const p of plan.pieces)
    for (const id of p.personIds) people |= claimed(board, personAt(board, id), p.startMin, p.endMin);
  return plan.stays.reduce<readonly bigint[]>(
    (ways, s) =>
      ways.flatMap((bits) =>
        spacesOf(board, s.bayId).map((at) => bits | claimed(board, at, s.arriveMin, s.leaveMin)),
      ),
    [people],
  );
}

function spacesOf(board: Board, id: string): readonly number[] {
  return board.places.flatMap((p, at) => (p.id === id ? [at] : []));
}
function personAt(board: Board, id: string): number {
  return board.places.length + board.technicians.findIndex((p) => p.id === id);
}

function claimed(board: Board, row: number, from: number, to: number): bigint {
  let bits = 0n;
  for (const t of minutes(Math.max(0, from), to)) bits |= 1n << BigInt(row * board.horizonMin + t);
  return bits;
}

function minutes(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
}

/** Tells of every way that goes on from one of some states. */
function everyWay(
  board: Board,
  job: JobSpec,
  from: readonly State[],
  holdUntilMin: number,
  tell: (bits: bigint, ready: number) => void,
): void {
  const seen = new Set<string>();
  const go = (s: State): void => {
    const key = `${s.done}/${s.at}/${s.t}/${s.workFrom}/${s.owes}/${s.ready}/${s.bits}`;
    if (s.t > board.horizonMin || seen.has(key)) return;
    seen.add(key);
    if (s.done === job.stages.length && s.t >= holdUntilMin && board.slots.includes(s.t)) {
      // Standing on would only claim more.
      tell(s.bits, s.ready);
      return;
    }
    for (const n of following(board, job, s)) go(n);
  };
  for (const state of from) go(state);
}

function following(board: Board, job: JobSpec, s: State): State[] {
  const next: State[] = [];
  const stood = claimed(board, s.at, s.t, s.t + 1);
  if (hasRoom(board, s.at, s.t)) next.push({ ...s, t: s.t + 1, bits: s.bits | stood });
  const stage = job.stages[s.done];
  const kind = board.places[s.at]?.kind;
  if (stage && kind && stage.bayKinds.includes(kind) && s.t >= s.workFrom && isApart(job, s))
    next.push(...worked(board, stage, s));
  if (s.owes || !isOpen(board.open, s.t)) return next;
  board.places.forEach((p, at) => {
    const forWork = stage?.bayKinds.includes(p.kind) ?? false;
    if (p.id === board.places[s.at]?.id || (!forWork && p.kind !== 'yard') || !hasRoom(board, at, s.t))
      return;
    next.push({ ...s, at, workFrom: s.t + board.moveMin + p.setupMin, owes: p.kind !== 'yard' });
  });
  return next;
}

function isApart(job: JobSpec, s: State): boolean {
  const before = job.stages[s.done - 1];
  const since = s.t - s.ready;
  return !before || (since >= before.leastGapMin && since <= (before.mostGapMin ?? since));
}

function worked(board: Board, stage: StageSpec, s: State): State[] {
  return crewsFor(board, stage).flatMap((crew): State[] => {
    const end = crew.length === 0 ? s.t : endOf(board, stage, crew, s.t);
    if (end === null) return [];
    const over = end + stage.dwellMin + (stage.crew === 0 ? stage.labourMin : 0);
    if (over > board.horizonMin || minutes(s.t, over).some((t) => !hasRoom(board, s.at, t))) return [];
    let bits = s.bits | claimed(board, s.at, s.t, over);
    for (const p of crew) bits |= claimed(board, personAt(board, p.id), s.t, end);
    return [{ ...s, done: s.done + 1, t: over, workFrom: over, owes: false, ready: over, bits }];
  });
}

function crewsFor(board: Board, stage: StageSpec): Technician[][] {
  const able = board.technicians.filter((p) => p.skills.includes(stage.skill));
  if (stage.crew === 0) return [[]];
  if (stage.crew === 1) return able.map((p) => [p]);
  return able.flatMap((a, i) => able.slice(i + 1).map((b) => [a, b]));
}

function endOf(board: Board, stage: StageSpec, crew: readonly Technician[], from: number): number | null {
  let left = stage.labourMin;
  for (let t = from; t <= board.horizonMin; t += 1) {
    if (left === 0) return t;
    const there = crew.every((p) => isOpen(p.hours, t));
    if (!there && (t === from || !stage.splittable)) return null;
    if (there) left -= 1;
  }
  return null;
}

function hasRoom(board: Board, at: number, t: number): boolean {
  const p = board.places[at];
  return p !== undefined && t < board.horizonMin && p.closed.every((c) => t < c.startMin || c.endMin <= t);
}

function isOpen(cal: Calendar, t: number): boolean {
  return cal.starts.some((start, i) => start <= t && t < (cal.ends[i] ?? 0));
}
