import { useEffect, useSyncExternalStore } from 'react';

/** One line of the command bar. */
export type Act = {
  readonly id: string;
  readonly label: string;
  readonly note?: string | undefined;
  /** The heading it stands under. */
  readonly group: string;
  readonly keys?: string | undefined;
  /** Further words that find it. */
  readonly words?: string | undefined;
  readonly run: () => void;
};
/** Answers to typed text, best first. Stop when the signal says so. */
export type Search = (text: string, signal: AbortSignal) => Promise<readonly Act[]>;

let acts: readonly (readonly Act[])[] = [];
let searches: readonly Search[] = [];
const listeners = new Set<() => void>();

function changed(): void {
  for (const tell of listeners) tell();
}
function subscribe(tell: () => void): () => void {
  listeners.add(tell);
  return () => listeners.delete(tell);
}

/** Offers acts while the component is there. Pass a stable list (module constant or useMemo). */
export function useActs(list: readonly Act[]): void {
  useEffect(() => {
    acts = [...acts, list];
    changed();
    return () => {
      acts = acts.filter((one) => one !== list);
      changed();
    };
  }, [list]);
}

/** Lets a source of records answer the command bar while the component is there. Pass a stable function. */
export function useSearch(search: Search): void {
  useEffect(() => {
    searches = [...searches, search];
    changed();
    return () => {
      searches = searches.filter((one) => one !== search);
      changed();
    };
  }, [search]);
}

export function useAllActs(): readonly (readonly Act[])[] {
  return useSyncExternalStore(subscribe, () => acts);
}
export function useAllSearches(): readonly Search[] {
  return useSyncExternalStore(subscribe, () => searches);
}

/** Acts whose words all begin somewhere in the label, the note or the further words. */
export function actsFitting(all: readonly (readonly Act[])[], text: string): readonly Act[] {
  const asked = text.toLowerCase().split(/\s+/).filter(Boolean);
  return all.flat().filter((act) => {
    const inside = `${act.label} ${act.note ?? ''} ${act.words ?? ''}`.toLowerCase().split(/[\s,·]+/);
    return asked.every((word) => inside.some((part) => part.startsWith(word)));
  });
}
