import { useEffect, useRef, useState } from 'react';
import type { PromiseNow } from '#core/shared/views/bays.ts';
import type { Answer } from '../../bridge/queries.ts';
import type { Changes } from './useChanges.ts';

/** A promise that is less sure than before a change of the plan. */
export type Fell = { readonly now: PromiseNow; readonly wasPpm: number };
/** So much of a fall is worth a line, however sure the promise still is. Common practice, no source. */
export const NOTABLE_PPM = 100_000;

/** Promises whose chance fell below how sure the shop promises, or by a notable step; the least sure first. */
export function fellBetween(before: readonly PromiseNow[], after: readonly PromiseNow[]): readonly Fell[] {
  const was = new Map(before.map((p) => [p.jobId, p.nowPpm]));
  return after
    .flatMap((now): Fell[] => {
      const wasPpm = was.get(now.jobId);
      if (wasPpm === undefined || inPercent(now.nowPpm) >= inPercent(wasPpm)) return [];
      const below = wasPpm >= now.levelPpm && now.nowPpm < now.levelPpm;
      return below || wasPpm - now.nowPpm >= NOTABLE_PPM ? [{ now, wasPpm }] : [];
    })
    .sort((a, b) => a.now.nowPpm - b.now.nowPpm);
}

/** As it is shown. */
function inPercent(ppm: number): number {
  return Math.round(ppm / 10_000);
}

export type FellNote = { readonly fell: readonly Fell[]; readonly drop: () => void };

/**
 * What this window's last change did to promises: those before it are held against the first that were worked out whole
 * after it. Taking the change back, or making another, ends what was said of it.
 */
export function useFell(promises: Answer<readonly PromiseNow[]>, last: Changes['last']): FellNote {
  const { data, asking } = promises;
  const [fell, setFell] = useState<readonly Fell[]>([]);
  const seen = useRef({ count: last.count, before: data });
  const asked = useRef(false);
  useEffect(() => {
    const changed = last.count !== seen.current.count;
    if (changed && asking) asked.current = true;
    if (changed && !(asked.current && !asking)) return setFell([]);
    if (changed && last.made && seen.current.before && data) setFell(fellBetween(seen.current.before, data));
    seen.current = { count: last.count, before: data };
    asked.current = false;
  }, [data, asking, last]);
  return { fell, drop: () => setFell([]) };
}
