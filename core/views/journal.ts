import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { PersonId } from '../shared/ids.ts';
import type { JournalLine, JournalThing } from '../shared/views/people.ts';
import { journalThings } from './journalThings.ts';

type Row = Pick<JournalLine, 'id' | 'atMs' | 'person' | 'command'> & {
  readonly subjects: string;
  readonly fields: string;
};

/** Who comes in says so before anybody is signed in at that window: the row is theirs all the same. */
const COMES_IN = ['access.signIn', 'shop.setUp'];

const LINES = `SELECT j.id, j.at_ms AS atMs, p.name AS person, j.command, j.subjects, j.fields
  FROM journal j LEFT JOIN person p ON p.id = j.person_id
  WHERE j.id < :before AND (:personId = '' OR j.person_id = :personId)
    AND (:subject = '' OR instr(j.subjects, :subject) > 0)
  ORDER BY j.id DESC LIMIT :limit`;

/** Who did what and when, newest first. `older` is where to go on, null at the end. */
export function journal(
  ctx: ReadCtx,
  input: {
    readonly before?: number | undefined;
    readonly subject?: string | undefined;
    readonly personId?: PersonId | undefined;
    readonly limit: number;
  },
): { readonly lines: readonly JournalLine[]; readonly older: number | null } {
  const rows = allRows<Row>(ctx.db, LINES, {
    before: input.before ?? Number.MAX_SAFE_INTEGER,
    personId: input.personId ?? '',
    subject: input.subject === undefined ? '' : JSON.stringify(input.subject),
    limit: input.limit + 1,
  });
  const page = rows.slice(0, input.limit).map((row) => ({
    ...row,
    subjects: JSON.parse(row.subjects) as string[],
    fields: JSON.parse(row.fields) as string[],
  }));
  const called = journalThings(
    ctx.db,
    page.flatMap((row) => row.subjects),
  );
  const lines = page.map((row): JournalLine => {
    const things = row.subjects.flatMap((subject) => called.get(subject) ?? []);
    return { ...row, person: doer(row, things), things };
  });
  const last = lines.at(-1);
  return { lines, older: rows.length > input.limit && last ? last.id : null };
}

function doer(row: Omit<JournalLine, 'things'>, things: readonly JournalThing[]): string | null {
  if (!COMES_IN.includes(row.command)) return row.person;
  if (!row.fields.includes('session')) return null;
  return things.find((thing) => thing.kind === 'person')?.name ?? row.person;
}
