import type { Calendar } from '#core/bays/rules/calendar.ts';
import type { Board, JobSpec, StageSpec, Technician } from '#core/bays/rules/model.ts';

/**
 * Brute force on a grid of single minutes: every state (stages done, place, minute) that a car can reach is tried,
 * minute by minute. It shares only the types with the placement it checks.
 */
type State = {
  readonly done: number;
  readonly at: number;
  readonly t: number;
  readonly workFrom: number;
  /** Entered a bay for the next stage and has not been worked on there: it may not drive off again. */
  readonly owes: boolean;
  readonly ready: number;
};

export type OracleAnswer = { readonly pickUpMin: number; readonly readyMin: number } | null;

export function bruteForce(board: Board, job: JobSpec, holdUntilMin = 0): OracleAnswer {
  const seen = new Set<string>();
  const byTime: State[][] = Array.from({ length: board.horizonMin + 1 }, () => []);
  const push = (s: State): void => {
    const key = `${s.done}/${s.at}/${s.t}/${s.workFrom}/${s.owes}/${s.ready}`;
    if (s.t > board.horizonMin || seen.has(key)) return;
    seen.add(key);
    byTime[s.t]?.push(s);
  };
  for (const s of firstStates(board, job)) push(s);
  let best: OracleAnswer = null;
  for (let t = 0; t <= board.horizonMin; t += 1) {
    const row = byTime[t] ?? [];
    for (let i = 0; i < row.length; i += 1) {
      const s = row[i];
      if (!s) continue;
      if (s.done === job.stages.length && t >= holdUntilMin && board.slots.includes(t))
        if (!best || s.ready < best.readyMin) best = { pickUpMin: t, readyMin: s.ready };
      for (const n of nextStates(board, job, s)) push(n);
    }
    if (best) return best;
  }
  return best;
}

function firstStates(board: Board, job: JobSpec): State[] {
  const states: State[] = [];
  board.places.forEach((p, at) => {
    const start = job.start;
    if (start.kind === 'here') {
      if (start.bayId === p.id)
        states.push({
          done: 0,
          at,
          t: start.fromMin,
          workFrom: start.fromMin,
          owes: false,
          ready: start.fromMin,
        });
      return;
    }
    if (p.kind !== 'yard' && !job.stages[0]?.bayKinds.includes(p.kind)) return;
    for (const t of board.slots) {
      if (start.kind === 'agreed' && t !== start.dropOffMin) continue;
      if (start.kind === 'free' && t < start.notBeforeMin) continue;
      if (!roomAt(board, at, t)) continue;
      states.push({ done: 0, at, t, workFrom: t + board.moveMin + p.setupMin, owes: false, ready: 0 });
    }
  });
  return states;
}

function nextStates(board: Board, job: JobSpec, s: State): State[] {
  const states: State[] = [];
  if (roomAt(board, s.at, s.t)) states.push({ ...s, t: s.t + 1 });
  const stage = job.stages[s.done];
  const here = board.places[s.at];
  if (stage && here && s.t >= s.workFrom && stage.bayKinds.includes(here.kind) && isApart(job, s))
    for (const end of endsOf(board, stage, s))
      states.push({ done: s.done + 1, at: s.at, t: end, workFrom: end, owes: false, ready: end });
  if (s.owes || !openAt(board.open, s.t)) return states;
  board.places.forEach((p, at) => {
    const forWork = stage?.bayKinds.includes(p.kind) ?? false;
    if (at === s.at || (!forWork && p.kind !== 'yard') || !roomAt(board, at, s.t)) return;
    if (p.kind !== 'yard' && standsInTheWay(board, s.at, at, s.t)) return;
    const workFrom = s.t + board.moveMin + p.setupMin;
    states.push({ ...s, at, workFrom, owes: p.kind !== 'yard' });
  });
  return states;
}

/**
 * Whether the car that is driven out of `to` at a minute can only be so once this one has left `from`: cars are driven
 * out one by one, each needs its next place empty. Before a yard there is room to pass.
 */
function standsInTheWay(board: Board, from: number, to: number, t: number): boolean {
  if (board.places.some((p) => p.kind === 'yard')) return false;
  let moving = [...board.plans.values()].flatMap(({ stays }) =>
    stays.flatMap((s, i) => {
      const next = stays[i + 1];
      return next && s.leaveMin === t ? [{ out: s.bayId, into: next.bayId }] : [];
    }),
  );
  const held = board.places[from]?.id;
  for (;;) {
    const full = new Set([...moving.map((m) => m.out), held]);
    const left = moving.filter((m) => full.has(m.into));
    if (left.length === moving.length) break;
    moving = left;
  }
  return moving.some((m) => m.out === board.places[to]?.id);
}

/** Whether the next stage may begin now, by the time since the one before was over. */
function isApart(job: JobSpec, s: State): boolean {
  const before = job.stages[s.done - 1];
  const since = s.t - s.ready;
  return !before || (since >= before.leastGapMin && since <= (before.mostGapMin ?? since));
}

/** Minutes at which the stage can be over, begun right now, by any qualified crew. */
function endsOf(board: Board, stage: StageSpec, s: State): number[] {
  const dwell = stage.crew === 0 ? stage.labourMin + stage.dwellMin : stage.dwellMin;
  const ends: number[] = [];
  for (const crew of crewsOf(board, stage)) {
    const end = crew.length === 0 ? s.t : labourEnd(board, stage, crew, s.t);
    if (end === null) continue;
    let room = true;
    for (let t = s.t; t < end + dwell; t += 1)
      if (!roomAt(board, s.at, t) || dirtyAt(board, stage, s.at, crew, t, end)) room = false;
    if (room) ends.push(end + dwell);
  }
  return ends;
}

/** Cut while a coating near it is fresh, or coated and cured while somebody cuts near it. */
function dirtyAt(
  board: Board,
  stage: StageSpec,
  at: number,
  crew: readonly Technician[],
  t: number,
  end: number,
): boolean {
  const near = board.places[at]?.dustWith ?? [];
  const atWork = t < end && crew.every((p) => openAt(p.hours, t));
  for (const plan of board.plans.values())
    for (const p of plan.pieces) {
      const kind = board.jobs.get(plan.jobId)?.stages.find((x) => x.id === p.stageId)?.kind;
      if (!near.includes(p.bayId) || t < p.startMin) continue;
      const theirs = board.technicians.filter((x) => p.personIds.includes(x.id));
      if (stage.kind === 'cut' && atWork && (kind === 'protect' || kind === 'cure') && t < p.dwellEndMin)
        return true;
      const cutting = kind === 'cut' && t < p.endMin && theirs.every((x) => openAt(x.hours, t));
      if (cutting && (stage.kind === 'protect' || stage.kind === 'cure')) return true;
    }
  return false;
}

function crewsOf(board: Board, stage: StageSpec): Technician[][] {
  const able = board.technicians.filter((p) => p.skills.includes(stage.skill));
  if (stage.crew === 0) return [[]];
  if (stage.crew === 1) return able.map((p) => [p]);
  return able.flatMap((a, i) => able.slice(i + 1).map((b) => [a, b]));
}

function labourEnd(board: Board, stage: StageSpec, crew: readonly Technician[], from: number): number | null {
  const pace = crew.reduce((sum, p) => sum + p.speedPpm, 0) / crew.length;
  let left = Math.ceil((stage.labourMin * 1_000_000) / pace);
  for (let t = from; t < board.horizonMin; t += 1) {
    if (left === 0) return t;
    const there = crew.every((p) => openAt(p.hours, t));
    if (t === from && !there) return null;
    if (!there && !stage.splittable) return null;
    if (crew.some((p) => heldAt(board, p, t))) return null;
    if (there) left -= 1;
  }
  return left === 0 ? board.horizonMin : null;
}

function heldAt(board: Board, who: Technician, t: number): boolean {
  for (const plan of board.plans.values())
    for (const p of plan.pieces)
      if (p.personIds.includes(who.id) && p.startMin <= t && t < p.endMin) return true;
  return false;
}

function roomAt(board: Board, at: number, t: number): boolean {
  const p = board.places[at];
  if (!p || t < 0 || t >= board.horizonMin) return false;
  if (p.closed.some((c) => c.startMin <= t && t < c.endMin)) return false;
  let cars = 0;
  for (const plan of board.plans.values())
    for (const s of plan.stays) if (s.bayId === p.id && s.arriveMin <= t && t < s.leaveMin) cars += 1;
  return cars < p.capacity;
}

function openAt(cal: Calendar, t: number): boolean {
  return cal.starts.some((start, i) => start <= t && t < (cal.ends[i] ?? 0));
}
