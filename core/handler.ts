import type { ReadCtx, TaskCtx, WriteCtx } from './context.ts';
import type { Entry, EntryKind, InputOf, OutputOf } from './shared/entry.ts';
import type { DocumentFile } from './shared/reply.ts';

/** What carries an entry out, by its kind. Reads and writes are synchronous: a transaction cannot wait. */
export type HandlerFor<E extends Entry> =
  E extends Entry<'read'>
    ? (ctx: ReadCtx, input: InputOf<E>) => OutputOf<E>
    : E extends Entry<'write'>
      ? (ctx: WriteCtx, input: InputOf<E>) => OutputOf<E>
      : E extends Entry<'document'>
        ? Rendered<InputOf<E>>
        : E extends Entry<'task'>
          ? Computed<InputOf<E>, OutputOf<E>>
          : never;

type Rendered<I> = {
  /** Reads everything the document needs in one snapshot and starts no rendering. */
  readonly make: (ctx: ReadCtx, input: I) => () => Promise<DocumentFile>;
};
type Computed<I, O> = {
  /** Gathers in one snapshot; the returned model must survive structured clone. */
  readonly gather: (ctx: ReadCtx, input: I) => unknown;
  /** Pure computation on the model, in the solver's worker. */
  readonly run: (model: never, task: TaskCtx) => O;
};

export type Catalogue = Readonly<Record<string, Entry<EntryKind>>>;
/** Every entry but the host's own is bound; see core/host/hostActions.ts for those. */
export type HandlersFor<C extends Catalogue> = {
  readonly [K in keyof C as C[K] extends Entry<'host'> ? never : K]: HandlerFor<C[K]>;
};
