import { and, desc, eq, inArray, ne, sql } from 'drizzle-orm';
import { prepared } from '../../db/prepared.ts';
import { addRow, patchRow } from '../../db/rows.ts';
import { quote, quoteOption } from '../../db/schema/billing.ts';
import type { ReadDb, WriteDb } from '../../db/types.ts';
import { refuse } from '../../shared/errors.ts';
import type { CustomerId, JobId, QuoteId } from '../../shared/ids.ts';

export type QuoteRecord = typeof quote.$inferSelect;
export type OptionRecord = typeof quoteOption.$inferSelect;
type QuotePatch = Partial<
  Pick<QuoteRecord, 'state' | 'sentMs' | 'acceptedMs' | 'acceptedLetter' | 'acceptedName' | 'acceptedWay'>
>;

const byId = prepared((db) =>
  db.orm
    .select()
    .from(quote)
    .where(eq(quote.id, sql.placeholder('id')))
    .prepare(),
);
const ofJob = prepared((db) =>
  db.orm
    .select()
    .from(quote)
    .where(eq(quote.jobId, sql.placeholder('jobId')))
    .orderBy(desc(quote.version))
    .prepare(),
);
const options = prepared((db) =>
  db.orm
    .select()
    .from(quoteOption)
    .where(eq(quoteOption.quoteId, sql.placeholder('quoteId')))
    .orderBy(quoteOption.letter)
    .prepare(),
);
const oneOption = prepared((db) =>
  db.orm
    .select()
    .from(quoteOption)
    .where(
      and(
        eq(quoteOption.quoteId, sql.placeholder('quoteId')),
        eq(quoteOption.letter, sql.placeholder('letter')),
      ),
    )
    .prepare(),
);

/** @throws NOT_FOUND when there is no such quote */
export function quoteOf(db: ReadDb, id: QuoteId): QuoteRecord {
  return byId(db).get({ id }) ?? refuse('NOT_FOUND', { what: 'quote', id });
}

/** Versions of a job's quote, the newest first. */
export function quotesOfJob(db: ReadDb, jobId: JobId): QuoteRecord[] {
  return ofJob(db).all({ jobId });
}

export function optionOf(
  db: ReadDb,
  quoteId: QuoteId,
  letter: OptionRecord['letter'],
): OptionRecord | undefined {
  return oneOption(db).get({ quoteId, letter });
}

export function optionsOf(db: ReadDb, quoteId: QuoteId): OptionRecord[] {
  return options(db).all({ quoteId });
}

/** The option that the customer agreed to and that stands now, with its quote. */
export function agreedOption(
  db: ReadDb,
  jobId: JobId,
): { readonly quote: QuoteRecord; readonly option: OptionRecord } | null {
  const accepted = quotesOfJob(db, jobId).find((q) => q.state === 'accepted');
  const letter = accepted?.acceptedLetter ?? null;
  const option = accepted && letter !== null ? optionOf(db, accepted.id, letter) : undefined;
  return accepted && option ? { quote: accepted, option } : null;
}

export function addQuote(
  db: WriteDb,
  row: typeof quote.$inferInsert,
  rows: readonly (typeof quoteOption.$inferInsert)[],
): void {
  addRow(db, quote, row);
  for (const option of rows) addRow(db, quoteOption, option);
}

export function saveQuote(db: WriteDb, id: QuoteId, patch: QuotePatch): void {
  patchRow(db, quote, id, patch);
}

const replaceOpen = prepared((db) =>
  db.orm
    .update(quote)
    .set({ state: 'replaced', revision: sql`${quote.revision} + 1` })
    .where(
      and(
        eq(quote.jobId, sql.placeholder('jobId')),
        ne(quote.id, sql.placeholder('except')),
        inArray(quote.state, ['draft', 'sent']),
      ),
    )
    .prepare(),
);
const replaceStanding = prepared((db) =>
  db.orm
    .update(quote)
    .set({ state: 'replaced', revision: sql`${quote.revision} + 1` })
    .where(and(eq(quote.jobId, sql.placeholder('jobId')), eq(quote.state, 'accepted')))
    .prepare(),
);

/** Drafts and sent versions of a job become replaced; the accepted one stands. */
export function replaceOpenVersions(db: WriteDb, jobId: JobId, except: QuoteId): void {
  replaceOpen(db).run({ jobId, except });
}

/** The accepted version of a job becomes replaced, because the customer agreed to another. */
export function replaceAccepted(db: WriteDb, jobId: JobId): void {
  replaceStanding(db).run({ jobId });
}

/** Writes something else where the names of those stood who agreed to quotes of a customer's jobs. */
export function renameAcceptances(db: WriteDb, customerId: CustomerId, instead: string): void {
  db.orm
    .update(quote)
    .set({ acceptedName: instead, revision: sql`${quote.revision} + 1` })
    .where(
      and(
        sql`${quote.acceptedMs} IS NOT NULL`,
        sql`${quote.jobId} IN (SELECT id FROM job WHERE customer_id = ${customerId} OR payer_id = ${customerId})`,
      ),
    )
    .run();
}
