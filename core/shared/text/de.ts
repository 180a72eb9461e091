import { deDocuments } from './de/documents.ts';
import { deRecords } from './de/records.ts';
import { deWork } from './de/work.ts';
import type { PaperKey } from './paperKeys.ts';

/** Every text of papers for customers in German, by its key. */
export const de = {
  ...deDocuments,
  ...deRecords,
  ...deWork,
} as const satisfies Readonly<Record<PaperKey, string>>;
