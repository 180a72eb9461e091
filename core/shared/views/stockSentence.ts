import type { LocalDay, Minor } from '../units.ts';
import type { BaseUnit } from '../vocabulary.ts';

/** A value inside a sentence, still in storage units; the screen writes it in the shop's units and language. */
export type SentenceValue =
  | string
  | number
  | { readonly is: 'amount'; readonly amount: number; readonly unit: BaseUnit }
  | { readonly is: 'packs'; readonly packs: number; readonly packSize: number; readonly unit: BaseUnit }
  | { readonly is: 'day'; readonly day: LocalDay }
  | { readonly is: 'money'; readonly minor: Minor };

/** A sentence that is written where it is shown: a locale text and its numbers. */
export type Sentence = { readonly key: string; readonly values: Readonly<Record<string, SentenceValue>> };

/** One line of the reasoning behind a figure: its locale text and value. */
export type ReasonInput = { readonly key: string; readonly value: SentenceValue };

/** How a suggestion came about: inputs, the rule in words, and where the rule comes from. */
export type ReasonView = {
  readonly inputs: readonly ReasonInput[];
  readonly rule: string;
  readonly source: string;
};
