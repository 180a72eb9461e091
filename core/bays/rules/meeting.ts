import type { BayId, JobId, PersonId } from '#core/shared/ids.ts';
import type { Board, JobPlan, Place, Stay } from './model.ts';

/** A minute in a place or of a person. */
export type Claim =
  | { readonly what: 'place'; readonly id: BayId; readonly atMin: number }
  | { readonly what: 'person'; readonly id: PersonId; readonly atMin: number };
/** More jobs claim something at a minute than can have it: `room` of them can. */
export type Meeting = { readonly claim: Claim; readonly jobs: readonly JobId[]; readonly room: number };

type Held = { readonly jobId: JobId; readonly startMin: number; readonly endMin: number };

/**
 * The first place or person, by minute, that plans claim together; null when they can be worked side by side. Of their time
 * together it is the last minute: whoever may not have that one comes after the others, and not a minute later again.
 * `fixed` are plans that hold their room whatever becomes of these; a person they hold is not asked for.
 */
export function firstMeeting(
  board: Board,
  plans: readonly JobPlan[],
  fixed: readonly JobPlan[],
): Meeting | null {
  let first: Meeting | null = null;
  const keep = (next: Meeting | null): void => {
    if (next && (!first || next.claim.atMin < first.claim.atMin)) first = next;
  };
  for (const place of board.places) keep(meetingIn(board, place, plans, fixed));
  for (const { id } of board.technicians) {
    const crowd = crowded(heldBy(plans, id), [], 1, board.nowMin);
    if (crowd) keep({ ...crowd, claim: { what: 'person', id, atMin: crowd.atMin } });
  }
  return first;
}

function meetingIn(
  board: Board,
  { id, capacity }: Place,
  plans: readonly JobPlan[],
  fixed: readonly JobPlan[],
): Meeting | null {
  const crowd = crowded(standing(plans, id), standing(fixed, id), capacity, board.nowMin);
  return crowd && { ...crowd, claim: { what: 'place', id, atMin: crowd.atMin } };
}

function standing(plans: readonly JobPlan[], id: BayId): readonly Held[] {
  const held = ({ arriveMin, leaveMin }: Stay) => ({ startMin: arriveMin, endMin: leaveMin });
  return plans.flatMap(({ jobId, stays }) =>
    stays.filter((s) => s.bayId === id).map((s) => ({ jobId, ...held(s) })),
  );
}

export function heldBy(plans: readonly JobPlan[], id: PersonId): readonly Held[] {
  return plans.flatMap(({ jobId, pieces }) =>
    pieces
      .filter((p) => p.personIds.includes(id))
      .map(({ startMin, endMin }) => ({ jobId, startMin, endMin })),
  );
}

type Crowd = { readonly jobs: readonly JobId[]; readonly room: number; readonly atMin: number };

/** The first time at which more are there than have room, and the last minute of it. */
function crowded(
  held: readonly Held[],
  fixed: readonly Held[],
  capacity: number,
  fromMin: number,
): Crowd | null {
  if (held.length < 2) return null;
  const all = [...held, ...fixed];
  for (const { startMin } of all.toSorted((a, b) => a.startMin - b.startMin)) {
    const at = Math.max(fromMin, startMin);
    const there = (h: Held): boolean => h.startMin <= at && at < h.endMin;
    const now = held.filter(there);
    const room = capacity - fixed.filter(there).length;
    if (now.length <= room || now.length < 2) continue;
    const together = all.filter(there).map((h) => h.endMin);
    return { jobs: now.map((h) => h.jobId), room, atMin: Math.min(...together) - 1 };
  }
  return null;
}
