import type { ReadDb } from '../db/types.ts';
import type { Check, Finding } from './check.ts';
import { figuresChecks } from './figuresChecks.ts';
import { fileChecks } from './fileChecks.ts';
import { jobChecks } from './jobChecks.ts';
import { moneyChecks } from './moneyChecks.ts';
import { openChecks } from './openChecks.ts';
import { pictureChecks } from './pictureChecks.ts';
import { planChecks } from './planChecks.ts';
import { stockChecks } from './stockChecks.ts';
import { sumChecks } from './sumChecks.ts';

/** Every rule that a whole shop file must keep, in the order they are told. */
export const CHECKS: readonly Check[] = [
  ...fileChecks,
  ...pictureChecks,
  ...jobChecks,
  ...planChecks,
  ...stockChecks,
  ...moneyChecks,
  ...figuresChecks,
  ...openChecks,
  ...sumChecks,
];

/** Runs every check over an open file. Reads only. */
export function examine(db: ReadDb): readonly Finding[] {
  return CHECKS.flatMap((check) => check.run(db).map((values) => ({ check: check.name, values })));
}
