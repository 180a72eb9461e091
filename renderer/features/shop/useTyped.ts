import { useEffect, useState } from 'react';

/**
 * What is stored, or what was just typed over it while the answer is on its way: so a second change never starts
 * from what the first one replaced. `stored` has to keep its identity as long as it says the same.
 */
export function useTyped<T>(stored: T, busy: boolean): readonly [T, (typed: T) => void] {
  const [typed, setTyped] = useState<{ readonly value: T } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new answer replaces what was typed, sending does not
  useEffect(() => {
    if (!busy) setTyped(null);
  }, [stored]);
  return [typed ? typed.value : stored, (value) => setTyped({ value })];
}
