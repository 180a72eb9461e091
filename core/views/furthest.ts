import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { StageId } from '../shared/ids.ts';
import type { EpochMs } from '../shared/units.ts';
import { type FinishedWork, finishedWork } from './finishedWork.ts';
import { asPieces, type Cut } from './keptDays.ts';

/** So many are told, and kept of each day: of any days together they are among those of each. */
const MOST = 8;

/** A finished stage and how far it was from its estimate, longer or shorter alike: |log(actual / P50)|. */
export type Far = { readonly stageId: StageId; readonly doneMs: EpochMs; readonly far: number };

/** The furthest, the first finished of those equally far; kept as it goes, since a sort of ten years takes longer than all the rest. */
export function furthest(all: readonly FinishedWork[]): readonly Far[] {
  let found: readonly Far[] = [];
  for (const { stageId, doneMs, p50Min, actualMin } of all) {
    if (p50Min <= 0 || actualMin <= 0) continue;
    const far = Math.abs(Math.log(actualMin / p50Min));
    if (found.length === MOST && far <= (found.at(-1)?.far ?? 0)) continue;
    found = mostOf([...found, { stageId, doneMs, far }]);
  }
  return found;
}

/** The furthest of several days' furthest. */
export function mostOf(all: readonly Far[]): readonly Far[] {
  return all
    .toSorted((a, b) => b.far - a.far || a.doneMs - b.doneMs || (a.stageId < b.stageId ? -1 : 1))
    .slice(0, MOST);
}

const KEPT = `SELECT f.stage_id AS stageId, f.done_ms AS doneMs, f.far
  FROM json_each(:pieces) p CROSS JOIN kept_furthest f ON f.day BETWEEN p.value ->> 1 AND p.value ->> 2
  ORDER BY f.far DESC, f.done_ms, f.stage_id LIMIT ${MOST}`;

/** The furthest of what is kept of days that hold. */
export function keptFurthest(db: ReadDb, cuts: readonly Cut[]): readonly Far[] {
  return allRows<Far>(db, KEPT, { pieces: asPieces(cuts) });
}

/** All that is known of them, in the same order. */
export function workOf(db: ReadDb, found: readonly Far[]): readonly FinishedWork[] {
  return found.flatMap(({ stageId, doneMs }) =>
    finishedWork(db, doneMs, doneMs + 1).filter((w) => w.stageId === stageId),
  );
}
