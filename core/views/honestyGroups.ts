import { lastAtOrBelow } from '../bays/rules/calendar.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { addStage, addSums, type HonestySums, noSums } from '../figures/rules/honesty.ts';
import type { Period } from '../figures/rules/periods.ts';
import { type FinishedWork, finishedWork, paintConditions } from './finishedWork.ts';
import { asPieces, type Cut } from './keptDays.ts';

/** What finished stages are sorted by. */
export const SORTED_BY = ['stage', 'technician', 'hardness', 'condition'] as const;
export type SortedBy = (typeof SORTED_BY)[number];
/** Sums by what the stages have in common. */
export type HonestyGroups = Readonly<Record<SortedBy, Map<string, ReturnType<typeof noSums>>>>;

export function noGroups(): HonestyGroups {
  return { stage: new Map(), technician: new Map(), hardness: new Map(), condition: new Map() };
}

/** The sums of a key, begun where there are none. */
export function sumsOf(groups: HonestyGroups, by: SortedBy, key: string): ReturnType<typeof noSums> {
  const sums = groups[by].get(key) ?? noSums();
  groups[by].set(key, sums);
  return sums;
}

/** From the records: what was finished in each of some periods that follow each other, in order of time, and its sums. */
export function recordedHonesty(
  db: ReadDb,
  cells: readonly Pick<Period, 'startMin' | 'endMin'>[],
): { readonly groups: readonly HonestyGroups[]; readonly finished: readonly FinishedWork[][] } {
  const [fromMs, toMs] = [(cells[0]?.startMin ?? 0) * 60_000, (cells.at(-1)?.endMin ?? 0) * 60_000];
  const conditions = paintConditions(db, fromMs, toMs);
  const starts = cells.map((c) => c.startMin);
  const groups = cells.map(noGroups);
  const finished = cells.map((): FinishedWork[] => []);
  for (const work of finishedWork(db, fromMs, toMs)) {
    const i = lastAtOrBelow(starts, Math.floor(work.doneMs / 60_000));
    const of = groups[i];
    if (!of) continue;
    finished[i]?.push(work);
    addStage(sumsOf(of, 'stage', work.kind), work);
    addStage(sumsOf(of, 'technician', work.personId), work);
    addStage(sumsOf(of, 'hardness', work.hardness), work);
    addStage(sumsOf(of, 'condition', conditions.get(work.jobId) ?? 'none'), work);
  }
  return { groups, finished };
}

const KEPT = `SELECT p.value ->> 0 AS i, h.sorted_by AS sortedBy, h.key, sum(h.finished) AS finished, sum(h.stages) AS stages,
    sum(h.estimated_min) AS estimatedMin, sum(h.actual_ms) AS actualMs, sum(h.within) AS within,
    sum(h.over_ms) AS overMs, sum(h.under_ms) AS underMs
  FROM json_each(:pieces) p CROSS JOIN kept_honesty h ON h.day BETWEEN p.value ->> 1 AND p.value ->> 2
  GROUP BY p.key, h.sorted_by, h.key`;
type KeptSums = HonestySums & { readonly i: number; readonly sortedBy: SortedBy; readonly key: string };

/** Adds what is kept of days that hold to the groups of their periods. */
export function addKept(db: ReadDb, cuts: readonly Cut[], groups: readonly HonestyGroups[]): void {
  for (const { i, sortedBy, key, ...sums } of allRows<KeptSums>(db, KEPT, { pieces: asPieces(cuts) })) {
    const of = groups[i];
    if (of) addSums(sumsOf(of, sortedBy, key), sums);
  }
}
