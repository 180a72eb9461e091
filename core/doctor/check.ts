import type { ReadDb } from '../db/types.ts';
import type { doctorTexts } from '../shared/text/en/doctor.ts';

type Names<K> = K extends `doctor.${infer N}` ? N : never;
/** A rule's name; its sentence is `doctor.<name>` in the locale files. */
export type CheckName = Names<keyof typeof doctorTexts>;

/** What the sentence of a broken rule is filled with, under the names that the sentence uses. */
export type Broken = Readonly<Record<string, string | number>>;

/** Something in the shop file that breaks a rule of the program. */
export type Finding = { readonly check: CheckName; readonly values: Broken };

/** One rule over the whole file. Reads only; an empty answer means the rule holds. */
export type Check = {
  readonly name: CheckName;
  run(db: ReadDb): readonly Broken[];
};
