import { frDocuments } from './fr/documents.ts';
import { frRecords } from './fr/records.ts';
import { frWork } from './fr/work.ts';
import type { PaperKey } from './paperKeys.ts';

/** Every text of papers for customers in French, by its key. */
export const fr = {
  ...frDocuments,
  ...frRecords,
  ...frWork,
} as const satisfies Readonly<Record<PaperKey, string>>;
