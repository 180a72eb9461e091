import { useState } from 'react';

/** A record's fields as a form holds them. */
export type Fields = Readonly<Record<string, unknown>>;

/**
 * What is typed over a stored record: `typed` by field, `from` as each of them was stored when it was first typed over,
 * `base` the whole record at the first of them, `sent` what was saved and has not come back yet.
 */
export type Edit<T extends Fields> = {
  readonly typed: Partial<T>;
  readonly from: Partial<T>;
  readonly base: T | null;
  readonly sent: Sent<T> | null;
};

/** Fields that were saved, and the revision the record has by that save. */
export type Sent<T extends Fields> = { readonly fields: Partial<T>; readonly revision: number };

export const UNTOUCHED = { typed: {}, from: {}, base: null, sent: null } as const;

const keysOf = <T extends Fields>(of: Partial<T>): (keyof T)[] => Object.keys(of) as (keyof T)[];

function without<T extends Fields>(of: Partial<T>, keys: readonly (keyof T)[]): Partial<T> {
  return Object.fromEntries(Object.entries(of).filter(([key]) => !keys.includes(key))) as Partial<T>;
}

/** Types over some fields. */
export function typedOver<T extends Fields>(edit: Edit<T>, stored: T, part: Partial<T>): Edit<T> {
  const first = Object.fromEntries(keysOf(part).map((key) => [key, stored[key]])) as Partial<T>;
  return {
    ...edit,
    typed: { ...edit.typed, ...part },
    from: { ...first, ...edit.from },
    base: edit.base ?? stored,
  };
}

/**
 * A record came: once it holds what was sent, that is no longer typed, and what was typed over it since goes on from
 * there: in the words it was stored in, or, where somebody saved again after it, in those it was sent in, so that
 * their change is seen as one.
 */
export function arrived<T extends Fields>(edit: Edit<T>, stored: T, revision: number): Edit<T> {
  const { sent, base } = edit;
  if (sent === null || revision < sent.revision) return edit;
  const keys = keysOf(sent.fields);
  const settled = revision === sent.revision ? pick(stored, keys) : sent.fields;
  const kept = keys.filter((key) => Object.is(edit.typed[key], sent.fields[key]));
  const from = { ...edit.from, ...settled };
  return forgotten({ ...edit, from, base: base && { ...base, ...settled }, sent: null }, kept);
}

/** Gives up what was typed in some fields; with none left the form is untouched again. */
export function forgotten<T extends Fields>(edit: Edit<T>, keys: readonly (keyof T)[]): Edit<T> {
  const typed = without(edit.typed, keys);
  if (keysOf(typed).length === 0) return UNTOUCHED as Edit<T>;
  return { ...edit, typed, from: without(edit.from, keys) };
}

/** Typed here and changed elsewhere meanwhile, to something else: somebody has to choose. */
export function clashesOf<T extends Fields>(edit: Edit<T>, stored: T): (keyof T)[] {
  return keysOf(edit.typed).filter(
    (key) => !Object.is(stored[key], edit.from[key]) && !Object.is(stored[key], edit.typed[key]),
  );
}

/** Changed elsewhere while other fields were being typed: it simply stands in the form. */
export function mergedOf<T extends Fields>(edit: Edit<T>, stored: T): (keyof T)[] {
  const { base, typed } = edit;
  if (base === null) return [];
  return keysOf<T>(stored).filter((key) => !(key in typed) && !Object.is(stored[key], base[key]));
}

export type Edited<T extends Fields> = {
  readonly draft: T;
  readonly put: (part: Partial<T>) => void;
  /** What the next save is made over: one's own last save counts before its record is back. */
  readonly revision: number;
  /** From the answer to a save until its record is back. */
  readonly awaited: boolean;
  readonly clashes: readonly (keyof T)[];
  readonly merged: readonly (keyof T)[];
  /** Something is typed over what is stored. */
  readonly typed: boolean;
  /** What was typed stands against what was saved elsewhere. */
  readonly keepMine: () => void;
  /** What was saved elsewhere stands; what was typed in those fields goes. */
  readonly takeTheirs: () => void;
  /** What was sent is saved: what stood in the form when it was sent, if nothing else is said. What is typed since stays. */
  readonly saved: (sent?: Partial<T>) => void;
};

/**
 * A form over a stored record that another window may change meanwhile: typing is never lost to their save, their
 * fields are taken over where nothing is typed, and where both changed one the person at the form chooses.
 */
export function useEdited<T extends Fields>(stored: T, revision: number): Edited<T> {
  const [{ edit, seen }, setHeld] = useState({ edit: UNTOUCHED as Edit<T>, seen: { stored, revision } });
  // Over what is held by then: the answer to a save may have come since the form was last drawn.
  const setEdit = (next: (edit: Edit<T>) => Edit<T>): void =>
    setHeld((now) => ({ ...now, edit: next(now.edit) }));
  if (seen.revision !== revision)
    setHeld({ edit: arrived(edit, stored, revision), seen: { stored, revision } });
  const sendOver = edit.sent?.revision ?? revision;
  // A record older than one's own save says nothing about it.
  const clashes = edit.sent === null ? clashesOf(edit, stored) : [];
  return {
    draft: { ...stored, ...edit.typed },
    put: (part) => setEdit((held) => typedOver(held, stored, part)),
    ...{ revision: sendOver, awaited: edit.sent !== null, clashes },
    typed: keysOf(edit.typed).some((key) => !Object.is(edit.typed[key], stored[key])),
    merged: mergedOf(edit, stored),
    keepMine: () => setEdit((held) => ({ ...held, from: { ...held.from, ...pick(stored, clashes) } })),
    takeTheirs: () => setEdit((held) => forgotten(held, clashes)),
    // The newer record may have come before the answer that it is saved.
    saved: (sent = edit.typed) =>
      setHeld((now) => {
        const next = { ...now.edit, sent: { fields: sent, revision: sendOver + 1 } };
        return { ...now, edit: arrived(next, now.seen.stored, now.seen.revision) };
      }),
  };
}

function pick<T extends Fields>(of: T, keys: readonly (keyof T)[]): Partial<T> {
  return Object.fromEntries(keys.map((key) => [key, of[key]])) as Partial<T>;
}
