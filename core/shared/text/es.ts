import { esDocuments } from './es/documents.ts';
import { esRecords } from './es/records.ts';
import { esWork } from './es/work.ts';
import type { PaperKey } from './paperKeys.ts';

/** Every text of papers for customers in Spanish, by its key. */
export const es = {
  ...esDocuments,
  ...esRecords,
  ...esWork,
} as const satisfies Readonly<Record<PaperKey, string>>;
