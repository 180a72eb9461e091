/** Rows by their name as a shop's region orders letters: `Änne` beside `Anna`, not behind `Zoë`. */
export function inOrder<T extends { readonly name: string }>(region: string, rows: readonly T[]): T[] {
  const { compare } = new Intl.Collator(region);
  return rows.toSorted((a, b) => compare(a.name, b.name));
}
