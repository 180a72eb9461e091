import { useCallback, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { refusalOf } from '../../bridge/client.ts';

/** One write after the other; what was refused stays to be read until the next one goes through. */
export function useTurns(): {
  /** Does the work after all that was asked for before it; null where it was refused. */
  readonly inTurn: <T>(work: () => Promise<T>) => Promise<T | null>;
  readonly refusal: PlainError | null;
  readonly saving: boolean;
} {
  const [refusal, setRefusal] = useState<PlainError | null>(null);
  const [saving, setSaving] = useState(false);
  const queue = useRef<Promise<unknown>>(Promise.resolve());
  const inTurn = useCallback(<T>(work: () => Promise<T>): Promise<T | null> => {
    const run = async (): Promise<T | null> => {
      setSaving(true);
      try {
        const done = await work();
        setRefusal(null);
        return done;
      } catch (problem) {
        setRefusal(refusalOf(problem));
        return null;
      } finally {
        setSaving(false);
      }
    };
    const done = queue.current.then(run);
    queue.current = done;
    return done;
  }, []);
  return { inTurn, refusal, saving };
}
