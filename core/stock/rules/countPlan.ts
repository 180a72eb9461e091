import type { CountClass } from '../../shared/views/stockCounts.ts';

/** Shares of a year's use in money up to which an item is A, then B. Common practice, no source. */
export const CLASS_SHARES = { A: 0.8, B: 0.95 } as const;
/** Days from one count to the next by class. Common practice, no source. */
export const COUNT_EVERY: Readonly<Record<CountClass, number>> = { A: 30, B: 90, C: 180 };
/** Corrected draws since the last count from which the book of an item is doubted. Common practice, no source. */
export const DOUBTED_FROM = 2;
/** Items of the plan on one day, besides those already asked for: about half an hour. Common practice, no source. */
export const DAILY = 6;

/**
 * A, B or C by what a year's use of each item is worth: the dearest, up to 80 % of all, are A, up to 95 % B. An item
 * that reaches over a limit belongs to the class it began in; what nobody used is C.
 */
export function valueClasses(worth: readonly number[]): readonly CountClass[] {
  const all = worth.reduce((sum, w) => sum + Math.max(0, w), 0);
  const order = worth.map((w, i) => ({ w: Math.max(0, w), i })).sort((a, b) => b.w - a.w || a.i - b.i);
  const found = new Array<CountClass>(worth.length).fill('C');
  let before = 0;
  for (const { w, i } of order) {
    if (w === 0) break;
    found[i] = before < CLASS_SHARES.A * all ? 'A' : before < CLASS_SHARES.B * all ? 'B' : 'C';
    before += w;
  }
  return found;
}

/** Days since an item was counted, or first kept; and how often a draw of it was corrected since. */
export type Counted = { readonly of: CountClass; readonly days: number; readonly corrections: number };

/** Why an item's turn has come; null when it has not. */
export function turnOf(c: Counted): 'corrected' | 'cycle' | null {
  if (c.corrections >= DOUBTED_FROM && c.days > 0) return 'corrected';
  return c.days >= COUNT_EVERY[c.of] ? 'cycle' : null;
}

/** How pressing a count is: doubted ones first, then by how many of its turns an item has missed. */
export function pressing(c: Counted): number {
  return (turnOf(c) === 'corrected' ? 1000 + c.corrections : 0) + c.days / COUNT_EVERY[c.of];
}
