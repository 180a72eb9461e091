/** The fields of a change that were really said. */
export type Said<T> = { readonly [K in keyof T]?: Exclude<T[K], undefined> };

/** Leaves out the fields that were not said, so that what is not said stays as it is. */
export function saidOnly<T extends object>(fields: T): Said<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Said<T>;
}
