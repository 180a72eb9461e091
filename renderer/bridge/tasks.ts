import { useCallback, useEffect, useRef, useState } from 'react';
import type { Progress } from '#core/shared/bridge.ts';
import type { EntryName, OutputFor, SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import { refusalOf, send, useHost } from './client.ts';

export type Task<N extends EntryName> = {
  /** Starts it; a start while one runs stops the older one first. */
  readonly start: (input: SentFor<N>) => void;
  /** Ends it and forgets what it found. */
  readonly cancel: () => void;
  /** Ends it and takes what it found so far. */
  readonly stop: () => void;
  readonly running: boolean;
  readonly progress: Progress | null;
  readonly value: OutputFor<N> | undefined;
  readonly refusal: PlainError | null;
};

/** A long computation with progress and cancel. Stopped when its screen goes away. */
export function useTask<N extends EntryName>(name: N): Task<N> {
  const host = useHost();
  const current = useRef<string | null>(null);
  const [running, setRunning] = useState(false);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [value, setValue] = useState<OutputFor<N> | undefined>(undefined);
  const [refusal, setRefusal] = useState<PlainError | null>(null);

  const cancel = useCallback(() => {
    const id = current.current;
    current.current = null;
    setRunning(false);
    setProgress(null);
    if (id) void host.cancel(id).catch(() => undefined);
  }, [host]);

  const stop = useCallback(() => {
    if (current.current) void host.cancel(current.current).catch(() => undefined);
  }, [host]);

  const start = useCallback(
    (input: SentFor<N>) => {
      cancel();
      const id = crypto.randomUUID();
      current.current = id;
      setRunning(true);
      setRefusal(null);
      send(host, name, input, id)
        .then((sent) => {
          if (current.current === id) setValue(sent.value);
        })
        .catch((problem: unknown) => {
          if (current.current === id) setRefusal(refusalOf(problem));
        })
        .finally(() => {
          if (current.current !== id) return;
          current.current = null;
          setRunning(false);
          setProgress(null);
        });
    },
    [host, name, cancel],
  );

  useEffect(
    () => host.onProgress((p) => (p.commandId === current.current ? setProgress(p) : undefined)),
    [host],
  );
  useEffect(() => cancel, [cancel]);
  return { start, cancel, stop, running, progress, value, refusal };
}
