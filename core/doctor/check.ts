import type { ReadDb } from '../db/types.ts';

/** Something in the shop file that breaks a rule of the program. `subject` is a record id or a name. */
export type Finding = { readonly check: string; readonly subject: string; readonly problem: string };

/** One rule over the whole file. Reads only; an empty answer means the rule holds. */
export type Check = {
  readonly name: string;
  readonly about: string;
  run(db: ReadDb): readonly Omit<Finding, 'check'>[];
};
