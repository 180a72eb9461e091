import { useCallback, useState } from 'react';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import type { DocumentFile } from '#core/shared/reply.ts';
import { refusalOf, send, useHost } from './client.ts';

/** Entries whose answer is a finished file. */
export type DocumentName = {
  [N in EntryName]: OutputFor<N> extends DocumentFile ? (unknown extends OutputFor<N> ? never : N) : never;
}[EntryName];

export type DocumentActions<N extends DocumentName> = {
  /** Makes the file and writes it; answers where it went, null when the dialog was closed or it was refused. */
  readonly save: (input: SentFor<N>) => Promise<string | null>;
  /** Makes the file and opens it to read or print. */
  readonly open: (input: SentFor<N>) => Promise<boolean>;
  /** Makes the file and hands it over, for a picture of it in the page. */
  readonly make: (input: SentFor<N>) => Promise<DocumentFile | null>;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
};

const NOT_WRITTEN = { code: 'FILE_NOT_WRITTEN', data: {} } as const satisfies PlainError;
const NOT_OPENED = { code: 'FILE_NOT_OPENED', data: {} } as const satisfies PlainError;

/** What the host does with a finished file; where it cannot, that is said instead. */
async function orSaid<T>(done: Promise<T>, instead: T, say: () => void): Promise<T> {
  try {
    return await done;
  } catch (problem) {
    console.error(problem);
    say();
    return instead;
  }
}

/** A document: saved or opened on the desktop, downloaded or shown in a browser. */
export function useDocument<N extends DocumentName>(name: N): DocumentActions<N> {
  const host = useHost();
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useState<PlainError | null>(null);
  const make = useCallback(
    async (input: SentFor<N>): Promise<DocumentFile | null> => {
      setBusy(true);
      setRefusal(null);
      try {
        return (await send(host, name, input)).value as unknown as DocumentFile;
      } catch (problem) {
        setRefusal(refusalOf(problem));
        return null;
      } finally {
        setBusy(false);
      }
    },
    [host, name],
  );
  const save = useCallback(
    async (input: SentFor<N>) => {
      const file = await make(input);
      return file ? orSaid(host.save(file), null, () => setRefusal(NOT_WRITTEN)) : null;
    },
    [host, make],
  );
  const open = useCallback(
    async (input: SentFor<N>) => {
      const file = await make(input);
      return file ? orSaid(host.open(file), false, () => setRefusal(NOT_OPENED)) : false;
    },
    [host, make],
  );
  return { save, open, make, busy, refusal };
}
