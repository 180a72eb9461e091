/** A field says how many letters are left within the last tenth of it; a short one, such as one for a year, does not. */
const NEAR_SHARE = 10;
const SHORT = 40;

export type Letters =
  | { readonly is: 'well' }
  | { readonly is: 'near'; readonly left: number }
  | { readonly is: 'over'; readonly by: number };

/**
 * How a text stands to the most that its field takes, counted as it is saved: without the blanks around it. What is over
 * is never cut: whoever pasted it has to see that it does not fit.
 */
export function lettersOf(text: string, most: number | undefined): Letters {
  if (most === undefined) return { is: 'well' };
  const left = most - text.trim().length;
  if (left < 0) return { is: 'over', by: -left };
  return most >= SHORT && left <= most / NEAR_SHARE ? { is: 'near', left } : { is: 'well' };
}
