import type { ReadCtx } from '../context.ts';
import { type ChartTable, chartCsv } from '../documents/figuresCsv.ts';
import type { DocumentFile } from '../shared/reply.ts';
import type { TextKey } from '../shared/text/en.ts';
import { mannerFor } from '../shared/text/manner.ts';
import { say, type TextValues } from '../shared/text/say.ts';
import { sellerOf } from '../views/billingParty.ts';

/** Says a text in the shop's language. */
export type Tell = (key: TextKey, values?: TextValues) => string;

export function tellIn(ctx: ReadCtx): Tell {
  const { locale } = mannerFor(sellerOf(ctx.db));
  return (key, values) => say(locale, key, values);
}

/** A table as a CSV file of that name. */
export function csvFile(name: string, table: ChartTable): () => Promise<DocumentFile> {
  return async () => ({
    fileName: `${name}.csv`,
    mime: 'text/csv; charset=utf-8',
    bytes: chartCsv(table),
  });
}
