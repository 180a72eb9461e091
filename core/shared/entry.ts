import type { z } from 'zod';
import type { Needs } from './roles.ts';

/**
 * How an entry is carried out:
 * read = sync, read-only; write = sync, inside one immediate transaction; document = gathered in one
 * read snapshot, then rendered to bytes; task = gathered in one snapshot, then computed in the solver's worker;
 * host = about the file itself (backups, demo shop), done by the host outside any transaction.
 */
export type EntryKind = 'read' | 'write' | 'document' | 'task' | 'host';

declare const out: unique symbol;

/** One named action of the program. `touches` names the topics whose queries a write makes stale. */
export type Entry<K extends EntryKind = EntryKind, I extends z.ZodType = z.ZodType, O = unknown> = {
  readonly kind: K;
  readonly needs: Needs;
  readonly about: string;
  readonly input: I;
  readonly touches: readonly string[];
  readonly [out]?: O;
};
export type InputOf<E> = E extends Entry<EntryKind, infer I, unknown> ? z.output<I> : never;
export type SentOf<E> = E extends Entry<EntryKind, infer I, unknown> ? z.input<I> : never;
export type OutputOf<E> = E extends Entry<EntryKind, z.ZodType, infer O> ? O : never;

type Spec<I> = { readonly needs: Needs; readonly about: string; readonly input: I };

/** A question. `listens` are the topics that make its answer stale. */
export function read<O>() {
  return <I extends z.ZodType>(
    spec: Spec<I> & { readonly listens: readonly string[] },
  ): Entry<'read', I, O> => ({
    kind: 'read',
    needs: spec.needs,
    about: spec.about,
    input: spec.input,
    touches: spec.listens,
  });
}

/** A change. */
export function write<O>() {
  return <I extends z.ZodType>(
    spec: Spec<I> & { readonly touches: readonly string[] },
  ): Entry<'write', I, O> => ({
    kind: 'write',
    ...spec,
  });
}

/** A document made from one snapshot; the output is always a `DocumentFile`. */
export function document() {
  return <I extends z.ZodType>(spec: Spec<I>): Entry<'document', I, import('./reply.ts').DocumentFile> => ({
    kind: 'document',
    touches: [],
    ...spec,
  });
}

/** A long computation with progress and cancel. */
export function task<O>() {
  return <I extends z.ZodType>(spec: Spec<I>): Entry<'task', I, O> => ({
    kind: 'task',
    touches: [],
    ...spec,
  });
}

/** An action on the shop's file as a whole: backups, restore, the demo shop. */
export function host<O>() {
  return <I extends z.ZodType>(spec: Spec<I>): Entry<'host', I, O> => ({
    kind: 'host',
    touches: [],
    ...spec,
  });
}
