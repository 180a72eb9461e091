import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JournalThing } from '../shared/views/people.ts';

type Row = JournalThing & { readonly id: string };

/** A record's job with the customer's name, for the records of a job. */
const OF_JOB = 'JOIN job j ON j.id = r.job_id JOIN customer c ON c.id = j.customer_id';
const OF_LOOK = `JOIN inspection l ON l.id = r.inspection_id JOIN job j ON j.id = l.job_id
  JOIN customer c ON c.id = j.customer_id`;

const STEP = 'step:';

/** What a record is called: `kind | name | number | word | day`, from which table. */
const CALLED: readonly (readonly [string, string])[] = [
  ["'job', c.name, r.number, '', ''", 'job r JOIN customer c ON c.id = r.customer_id'],
  ["'stage', c.name, j.number, r.kind, ''", `job_stage r ${OF_JOB}`],
  ["'job', c.name, j.number, '', ''", `inspection r ${OF_JOB}`],
  ["'job', c.name, j.number, '', ''", `estimate r ${OF_JOB}`],
  ["'job', c.name, j.number, '', ''", `picture r ${OF_JOB}`],
  ["'panel', c.name, j.number, r.panel, ''", `finding r ${OF_LOOK}`],
  ["'panel', c.name, j.number, r.panel, ''", `test_spot r ${OF_LOOK}`],
  ["'quote', c.name, r.number, CAST(r.version AS TEXT), ''", `quote r ${OF_JOB}`],
  [
    "CASE WHEN r.number IS NULL THEN 'draft' ELSE r.kind END, c.name, r.number, '', ''",
    'invoice r JOIN customer c ON c.id = r.customer_id',
  ],
  [
    "'receipt', coalesce(c.name, '–'), r.receipt, r.kind, ''",
    'payment r LEFT JOIN customer c ON c.id = r.customer_id',
  ],
  [
    "'voucher', coalesce(c.name, '–'), r.number, '', ''",
    'voucher r LEFT JOIN customer c ON c.id = r.customer_id',
  ],
  ["'order', s.name, r.number, '', ''", 'purchase_order r JOIN supplier s ON s.id = r.supplier_id'],
  ["'delivery', s.name, NULL, '', ''", 'delivery r JOIN supplier s ON s.id = r.supplier_id'],
  ["'rate', '', NULL, r.subject, r.from_day", 'rate r'],
  ["'closure', coalesce(b.name, ''), NULL, '', r.from_day", 'closure r LEFT JOIN bay b ON b.id = r.bay_id'],
  ["'person', p.name, NULL, '', ''", 'absence r JOIN person p ON p.id = r.person_id'],
  ["'person', r.name, NULL, '', ''", 'person r'],
  ["'named', r.name, NULL, '', ''", 'customer r'],
  ["'named', trim(r.make_model || ' ' || r.plate), NULL, '', ''", 'vehicle r'],
  ["'named', r.name, NULL, '', ''", 'bay r'],
  ["'named', r.name, NULL, '', ''", 'stock_item r'],
  ["'named', r.name, NULL, '', ''", 'supplier r'],
  ["'named', r.name, NULL, '', ''", 'tax_rate r'],
  ["'named', trim(r.name || ' ' || r.level || ' ' || r.panel), NULL, '', ''", 'list_price r'],
];

/** One search by primary key in each table that keeps records; an id is never used twice. */
const THINGS = `WITH thing (id, kind, name, number, word, day) AS (${CALLED.map(
  ([columns, from]) =>
    `SELECT r.id, ${columns} FROM ${from} WHERE r.id IN (SELECT value FROM json_each(:ids))`,
).join('\n  UNION ALL ')}) SELECT * FROM thing`;

/**
 * What the records of journal rows are called, by their subject. A step is its role, a noted conflict its job;
 * a record that is gone, and what is no record (`hours`, `shop`), has no entry.
 */
export function journalThings(db: ReadDb, subjects: readonly string[]): ReadonlyMap<string, JournalThing> {
  const rows = allRows<Row>(db, THINGS, { ids: JSON.stringify(subjects.map(recordOf)) });
  const called = new Map(rows.map(({ id, ...thing }) => [id, thing]));
  const found = new Map<string, JournalThing>();
  for (const subject of subjects) {
    const thing = stepOf(subject) ?? called.get(recordOf(subject));
    if (thing) found.set(subject, { ...thing, ...panelOf(subject) });
  }
  return found;
}

/** `overrun/<job>/<stage>` → the job; anything else is its own record. */
function recordOf(subject: string): string {
  return subject.split('/')[1] ?? subject;
}

/** `panel/<inspection>/bo` → that panel of the inspection's job. */
function panelOf(subject: string): Partial<JournalThing> {
  const [what, , word = ''] = subject.split('/');
  return what === 'panel' ? { kind: 'panel', word } : {};
}

/** `step:finish` → the step. */
function stepOf(subject: string): JournalThing | null {
  if (!subject.startsWith(STEP)) return null;
  return { kind: 'step', name: '', number: null, word: subject.slice(STEP.length), day: '' };
}
