import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useRef, useState } from 'react';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import { refusalOf, send, useHost } from './client.ts';
import { refresh } from './queries.ts';

/** What came of a command. Never thrown: a refusal is an answer. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: PlainError };

export type Command<N extends EntryName> = {
  /** Sends the change, unless a figure on the page cannot be read. Sending the same input again after a lost connection repeats it safely. */
  readonly run: (input: SentFor<N>) => Promise<Outcome<OutputFor<N>>>;
  readonly busy: boolean;
  /** The last refusal, until the next run or `clear`. */
  readonly refusal: PlainError | null;
  readonly clear: () => void;
};

/** Marks a box whose text is no figure that may be there, with the box's label. What was readable before it must not be saved in its place. */
export const UNREAD = 'data-unread';

/** Focuses a box on the page that cannot be read, and gives its label; null where all can. */
export function unreadHere(): string | null {
  const field = document.querySelector<HTMLElement>(`[${UNREAD}]`);
  field?.focus();
  return field?.getAttribute(UNREAD) ?? null;
}

/** A change. One intent has one command id: it is kept while it is not known whether it arrived. */
export function useCommand<N extends EntryName>(name: N): Command<N> {
  const host = useHost();
  const client = useQueryClient();
  const open = useRef<{ readonly text: string; readonly id: string } | null>(null);
  const [running, setRunning] = useState(0);
  const [refusal, setRefusal] = useState<PlainError | null>(null);
  const run = useCallback(
    async (input: SentFor<N>): Promise<Outcome<OutputFor<N>>> => {
      const at = unreadHere();
      if (at !== null) {
        const refused: PlainError = { code: 'FIGURE_UNREAD', data: { at } };
        setRefusal(refused);
        return { ok: false, refusal: refused };
      }
      const text = JSON.stringify(input);
      if (open.current?.text !== text) open.current = { text, id: crypto.randomUUID() };
      const intent = open.current;
      const over = (): void => {
        if (open.current === intent) open.current = null;
      };
      setRunning((n) => n + 1);
      setRefusal(null);
      try {
        const { value, touches } = await send(host, name, input, intent.id);
        over();
        refresh(client, touches);
        return { ok: true, value };
      } catch (problem) {
        const refused = refusalOf(problem);
        if (refused.code !== 'WORKER_GONE') over();
        setRefusal(refused);
        return { ok: false, refusal: refused };
      } finally {
        setRunning((n) => n - 1);
      }
    },
    [host, client, name],
  );
  const clear = useCallback(() => setRefusal(null), []);
  return { run, busy: running > 0, refusal, clear };
}
