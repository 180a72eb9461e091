import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { PersonId } from '../shared/ids.ts';
import type { JournalLine } from '../shared/views/people.ts';

type Row = Omit<JournalLine, 'subjects' | 'fields'> & {
  readonly subjects: string;
  readonly fields: string;
};

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
  const lines = rows.slice(0, input.limit).map((row) => ({
    ...row,
    subjects: JSON.parse(row.subjects) as string[],
    fields: JSON.parse(row.fields) as string[],
  }));
  const last = lines.at(-1);
  return { lines, older: rows.length > input.limit && last ? last.id : null };
}
