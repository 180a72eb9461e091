import type { BayId, PersonId } from '#core/shared/ids.ts';
import type { PlanFault } from '#core/shared/views/plan.ts';
import type { Board, JobPlan, JobSpec, Piece, StageSpec } from './model.ts';
import { checkDust, checkGaps, type Found } from './validateApart.ts';
import { checkRound, crowd, otherWork, wordsOfClash, wordsOfWork } from './validateClash.ts';
import { openIn, peopleOf, within } from './validateTime.ts';

/**
 * Names every rule that a plan breaks. Deliberately its own code: it shares only the types with the placement and
 * the re-plan, so that a mistake there cannot hide itself here. Work that has begun is a record, not a plan, and is
 * never called a fault.
 */
export type Faults = PlanFault[];

/** The faults of one job's plan, against the board's hours, places, people and the plans of all other jobs. */
export function faultsOfJob(board: Board, job: JobSpec, plan: JobPlan): readonly PlanFault[] {
  // What is over is a record.
  if (job.start.kind === 'over') return [];
  const faults: Faults = [];
  const found: Found = (rule, more = {}) => {
    faults.push({ rule, jobId: job.id, bayId: null, personId: null, words: { who: job.who }, ...more });
  };
  if (plan.stays.length === 0) {
    if (plan.pieces.length > 0) found('noPlace');
    return faults;
  }
  checkStays(board, job, plan, found);
  checkEnds(board, job, plan, found);
  // A car that only stands here has no plan for its work yet; the board lists it as such.
  if (job.start.kind !== 'here' || plan.pieces.length > 0) checkStages(board, job, plan, found);
  checkGaps(board, job, plan, found);
  checkDust(board, job, plan, found);
  for (const piece of plan.pieces)
    if (piece.startMin >= board.nowMin) checkPiece(board, job, plan, piece, found);
  return faults;
}

/** The faults of every plan on the board. */
export function faultsOfBoard(board: Board): readonly PlanFault[] {
  return [...board.plans.values()].flatMap((plan) => {
    const job = board.jobs.get(plan.jobId);
    return job ? faultsOfJob(board, job, plan) : [];
  });
}

function checkStays(board: Board, job: JobSpec, plan: JobPlan, found: Found): void {
  plan.stays.forEach((stay, i) => {
    const place = board.places.find((p) => p.id === stay.bayId);
    const before = plan.stays[i - 1];
    if (stay.leaveMin <= stay.arriveMin || (before && before.leaveMin !== stay.arriveMin)) found('noPlace');
    if (!place) found('noPlace', { bayId: stay.bayId });
    if (!place || stay.leaveMin <= board.nowMin) return;
    const words = { who: job.who, bay: place.name };
    const from = Math.max(stay.arriveMin, board.nowMin);
    const closed = place.closed.some((c) => c.startMin < stay.leaveMin && c.endMin > from);
    const stood = { ...words, fromMin: from, untilMin: stay.leaveMin };
    if (closed || stay.leaveMin > place.endsMin) found('bayClosed', { bayId: place.id, words: stood });
    const there = crowd(board, plan.jobId, place, from, stay.leaveMin);
    if (there.length > 0) {
      const taken = { ...words, ...wordsOfClash(board, { job, plan, stay }, there) };
      found(place.kind === 'yard' ? 'yardFull' : 'bayTaken', { bayId: place.id, words: taken });
    }
    if (before && stay.arriveMin > board.nowMin && !within(board.open, stay.arriveMin))
      found('departureClosed', { bayId: before.bayId, words: { ...words, atMin: stay.arriveMin } });
    if (before && stay.arriveMin > board.nowMin) checkRound(board, job, before, stay, found);
  });
}

function checkEnds(board: Board, job: JobSpec, plan: JobPlan, found: Found): void {
  const first = plan.stays[0];
  const last = plan.stays.at(-1);
  if (!first || !last) return;
  if (job.start.kind !== 'here') {
    if (first.arriveMin < board.nowMin)
      found('dropOffPassed', { words: { who: job.who, atMin: first.arriveMin } });
    else if (!within(board.desk, first.arriveMin))
      found('dropOffClosed', { words: { who: job.who, atMin: first.arriveMin } });
    if (job.start.kind === 'agreed' && first.arriveMin !== job.start.dropOffMin)
      found('dropOffMoved', {
        words: { who: job.who, atMin: job.start.dropOffMin, newMin: first.arriveMin },
      });
  }
  if (last.leaveMin > board.nowMin && !within(board.desk, last.leaveMin))
    found('pickUpClosed', { words: { who: job.who, atMin: last.leaveMin } });
  const ready = plan.pieces.reduce((t, p) => Math.max(t, p.dwellEndMin), 0);
  if (job.promiseMin !== null && ready > job.promiseMin)
    found('promiseMissed', {
      words: { who: job.who, atMin: job.promiseMin, readyMin: ready, newMin: last.leaveMin },
    });
  if (ready > last.leaveMin) {
    const piece = plan.pieces.find((p) => p.dwellEndMin > last.leaveMin);
    const stage = job.stages.find((s) => s.id === piece?.stageId)?.kind ?? '';
    const bay = board.places.find((p) => p.id === last.bayId)?.name ?? '';
    found('pieceOutsideStay', { bayId: last.bayId, words: { who: job.who, stage, bay } });
  }
}

function checkStages(board: Board, job: JobSpec, plan: JobPlan, found: Found): void {
  let over = Number.NEGATIVE_INFINITY;
  for (const stage of job.stages) {
    if (stage.state === 'dropped') continue;
    const pieces = plan.pieces.filter((p) => p.stageId === stage.id).sort((a, b) => a.startMin - b.startMin);
    const words = { who: job.who, stage: stage.kind };
    if (pieces.length === 0) {
      if (stage.state !== 'done') found('stageMissing', { words });
      continue;
    }
    for (const piece of pieces) {
      if (piece.startMin < over && piece.startMin >= board.nowMin) found('stageOrder', { words });
      over = Math.max(over, piece.dwellEndMin);
    }
    if (stage.state === 'planned') checkAmount(board, stage, pieces, found, words);
  }
}

/** Enough labour in the technicians' hours, at their pace, and the whole dwell after the last piece. */
function checkAmount(
  board: Board,
  stage: StageSpec,
  pieces: readonly Piece[],
  found: Found,
  words: Readonly<Record<string, string>>,
): void {
  const last = pieces.at(-1);
  const dwell = stage.dwellMin + (stage.crew === 0 ? stage.labourMin : 0);
  if (last && last.dwellEndMin - last.endMin < dwell) found('dwellShort', { words });
  if (stage.crew === 0) return;
  if (pieces.length > 1 && !stage.splittable) found('notSplittable', { words });
  let doneAtPace = 0;
  for (const piece of pieces) {
    const crew = peopleOf(board, piece);
    if (crew.length < stage.crew) {
      found('crewShort', { words });
      return;
    }
    const speed = crew.reduce((sum, p) => sum + p.speedPpm, 0) / crew.length;
    doneAtPace += (openIn(crew, piece.startMin, piece.endMin) * speed) / 1_000_000;
  }
  if (doneAtPace < stage.labourMin - 1) found('labourShort', { words });
}

function checkPiece(board: Board, job: JobSpec, plan: JobPlan, piece: Piece, found: Found): void {
  const stage = job.stages.find((s) => s.id === piece.stageId);
  const place = board.places.find((p) => p.id === piece.bayId);
  if (!stage || !place) {
    found('noPlace', { bayId: piece.bayId });
    return;
  }
  const words = { who: job.who, stage: stage.kind, bay: place.name };
  if (!stage.bayKinds.includes(place.kind)) found('bayKind', { bayId: place.id, words });
  const stay = plan.stays.find(
    (s) => s.bayId === piece.bayId && s.arriveMin <= piece.startMin && piece.dwellEndMin <= s.leaveMin,
  );
  if (!stay) {
    found('pieceOutsideStay', { bayId: place.id, words });
    return;
  }
  const stood = stay.arriveMin >= board.nowMin && !(job.start.kind === 'here' && stay === plan.stays[0]);
  if (stood && piece.startMin < stay.arriveMin + board.moveMin + place.setupMin)
    found('tooSoonAfterArrival', { bayId: place.id, words });
  if (stage.crew > 0)
    for (const id of piece.personIds) checkPerson(board, plan, piece, { who: job.who, stage, id }, found);
}

function checkPerson(
  board: Board,
  own: JobPlan,
  piece: Piece,
  of: { readonly who: string; readonly stage: StageSpec; readonly id: PersonId },
  found: Found,
): void {
  const { who, stage, id } = of;
  const person = board.technicians.find((t) => t.id === id);
  const words = { who, person: person?.name ?? '', stage: stage.kind, atMin: piece.startMin };
  const fault = { personId: id, bayId: piece.bayId as BayId | null, words };
  if (!person?.skills.includes(stage.skill)) {
    found('personSkill', fault);
    return;
  }
  if (!within(person.hours, piece.startMin)) found('personAway', fault);
  if (!stage.splittable && openIn([person], piece.startMin, piece.endMin) < piece.endMin - piece.startMin)
    found('notSplittable', fault);
  const other = otherWork(board, own, piece, id);
  if (other)
    found('personBusy', {
      ...fault,
      words: { ...words, ...wordsOfWork(board, other.plan, other.work), endMin: piece.endMin },
    });
}
