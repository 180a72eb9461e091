import type { TextKey } from './en.ts';

/** What the lists for the accountant say: they are the shop's own papers and stay in its language. */
type ForBooks = `doc.year.${string}` | `doc.journal.${string}` | `doc.account.${string}` | 'doc.cashCount';

/** Namespaces of what is printed for or sent to customers. */
type Printed =
  | `doc.${string}`
  | `billing.line.${string}`
  | `billing.${string}Line`
  | `limit.${string}`
  | `quote.part.${string}`
  | `record.way.${string}`
  | `bays.calendar.${string}`
  | 'card.panel'
  | 'card.lowest'
  | 'card.mayTake'
  | 'word.wholeCar'
  | `word.${'body' | 'panel' | 'panelOf' | 'defect' | 'stage' | 'level' | 'wish' | 'may'}.${string}`;

/** The texts that papers for customers need, and so every language of papers has. */
export type PaperKey = Exclude<Extract<TextKey, Printed>, ForBooks>;
