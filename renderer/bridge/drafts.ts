import { useCallback, useState } from 'react';
import { useMe } from './person.ts';

/**
 * Forms half filled in: kept in this window's own store, per person, until they are saved or begun anew, so that
 * walking to another place, a reload or a closed window loses nothing. What lies longer than three days is forgotten:
 * a customer's words don't stay beside the shop's file.
 */
type Kept = { readonly atMs: number; readonly value: unknown };
export type Found<T> = { readonly atMs: number; readonly value: T };
export type Draft<T> = {
  /** What was left here before, as it was when this form was opened. */
  readonly found: Found<T> | null;
  readonly keep: (value: T) => void;
  readonly drop: () => void;
};

const HEAD = 'rakelight.draft.';
const FORGET_MS = 3 * 86_400_000;

function read(key: string): Kept | null {
  try {
    const kept = JSON.parse(localStorage.getItem(key) ?? 'null') as Kept | null;
    return kept && Date.now() - kept.atMs < FORGET_MS ? kept : null;
  } catch {
    return null;
  }
}

/** Takes out what has lain too long, whoever left it. */
export function forgetOldDrafts(): void {
  for (const key of Object.keys(localStorage))
    if (key.startsWith(HEAD) && read(key) === null) localStorage.removeItem(key);
}

/** The draft of one form. `name` says which form, of what, and in which shape: another shape is another name. */
export function useDraft<T>(name: string): Draft<T> {
  const key = `${HEAD}${useMe()?.personId ?? ''}.${name}`;
  const [found] = useState(() => read(key) as Found<T> | null);
  const keep = useCallback(
    (value: T) => localStorage.setItem(key, JSON.stringify({ atMs: Date.now(), value } satisfies Kept)),
    [key],
  );
  const drop = useCallback(() => localStorage.removeItem(key), [key]);
  return { found, keep, drop };
}
