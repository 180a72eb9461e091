import { useState } from 'react';

export type ChosenList<T> = {
  /** The list that was chosen; null for none, and once it was taken over. */
  readonly csv: string | null;
  /** What came of the last one that was taken over, until another is chosen. */
  readonly took: T | null;
  readonly choose: (csv: string | null) => void;
  readonly taken: (what: T) => void;
};

/** A list from a file on its way into the shop. */
export function useChosenList<T>(): ChosenList<T> {
  const [csv, setCsv] = useState<string | null>(null);
  const [took, setTook] = useState<T | null>(null);
  return {
    csv,
    took,
    choose: (text) => {
      setTook(null);
      setCsv(text);
    },
    taken: (what) => {
      setCsv(null);
      setTook(what);
    },
  };
}
