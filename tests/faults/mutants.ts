import { BAYS_MUTANTS } from './baysMutants.ts';
import { FIGURES_MUTANTS } from './figuresMutants.ts';
import { GONE_MUTANTS } from './goneMutants.ts';
import { LABOUR_MUTANTS } from './labourMutants.ts';
import { MONEY_MUTANTS } from './moneyMutants.ts';
import type { Mutant } from './mutant.ts';
import { STOCK_MUTANTS } from './stockMutants.ts';
import { SUM_MUTANTS } from './sumMutants.ts';
import { THING_MUTANTS } from './thingMutants.ts';
import { WHAT_IF_MUTANTS } from './whatIfMutants.ts';

const DOOR = 'tests/core/dispatch.test.ts';
const LANGUAGES = 'tests/core/documents/languages.test.ts';
const GUARDS = 'tests/core/door/guards.test.ts';
const MIGRATE = 'tests/migrations/migrate.test.ts';
const MONEY = 'tests/core/billing/money.test.ts';

export const MUTANTS: readonly Mutant[] = [
  {
    what: 'a receipt is printed again in the language of today',
    file: 'core/billing/commands/lines.ts',
    find: 'return row.locale || paperTagOf(ctx.db, row.customerId);',
    put: 'return paperTagOf(ctx.db, row.customerId);',
    tests: [LANGUAGES],
  },
  {
    what: 'a credit note speaks another language than the document it corrects',
    file: 'core/billing/commands/credits.ts',
    find: 'locale: row.parties?.seller.locale ?? row.locale,',
    put: '',
    tests: [LANGUAGES],
  },
  {
    what: 'an invoice keeps the words of a quote in another language',
    file: 'core/billing/commands/invoices.ts',
    find: 'return billIn(option.bill, quote.locale || locale, locale);',
    put: 'return option.bill;',
    tests: [LANGUAGES],
  },
  {
    what: 'the narrow space of French is printed as a question mark',
    file: 'core/documents/pdfText.ts',
    find: 'text.replace(NARROW, THIN)',
    put: 'text',
    tests: [LANGUAGES],
  },
  {
    what: 'the door asks nobody’s role',
    file: 'core/dispatch.ts',
    find: "if (needs !== 'anyone' && !mayUse(actor?.role ?? null, needs)) {",
    put: 'if (actor === undefined) {',
    tests: [DOOR],
  },
  {
    what: 'a write has no transaction',
    file: 'core/db/atomic.ts',
    find: 'return frame(work) as T;',
    put: 'return work();',
    tests: [DOOR],
  },
  {
    what: 'a command of a batch that failed half done is kept with the rest',
    file: 'core/db/atomic.ts',
    find: 'if (changesOf(db) !== before) halfDone(error);',
    put: '',
    tests: ['tests/core/host/batchDoor.test.ts'],
  },
  {
    what: 'a coating that still cures may be touched, or called cured, without a word',
    file: 'core/bookings/commands/mayStart.ts',
    find: 'if (cureMissingMin(startedMs, dwellMin, ctx.now) === 0) continue;',
    put: 'if (ctx.now > startedMs) continue;',
    tests: ['tests/core/bookings/mayStart.test.ts'],
  },
  {
    what: 'the last look may come before the coating has begun to cure',
    file: 'core/bookings/rules/stageOrder.ts',
    find: "{ rule: 'workBeforeCheck', first: WORK, before: ['finalCheck'] },",
    put: '',
    tests: ['tests/core/bookings/rules.test.ts'],
  },
  {
    what: 'who approves one rule approves those they were never told of',
    file: 'core/bookings/commands/mayStart.ts',
    find: '!aside?.rules.includes(broken.rule)',
    put: '!aside',
    tests: ['tests/core/bookings/mayStart.test.ts'],
  },
  {
    what: 'one person’s clock runs twice on one car',
    file: 'core/bookings/commands/stages.ts',
    find: 'const left = running.filter((w) => w.jobId === stage.jobId);',
    put: 'const left = running.filter((w) => w.stageId === stage.id);',
    tests: ['tests/core/bookings/mayStart.test.ts'],
  },
  {
    what: 'an agreement to other materials leaves those that were planned',
    file: 'core/bookings/rules/asPlanned.ts',
    find: ' && isSameUse(uses, summedAmounts(materials))',
    put: '',
    tests: ['tests/core/bookings/asPlanned.test.ts'],
  },
  {
    what: 'a write leaves no line in the journal',
    file: 'core/journal.ts',
    find: '  of(db).journal.run(',
    put: '  if (line.now < 0) of(db).journal.run(',
    tests: [DOOR],
  },
  {
    what: 'a repeated command is done again',
    file: 'core/dispatch.ts',
    find: 'if (before) return before;',
    put: '',
    tests: [DOOR],
  },
  {
    what: 'text that cannot be kept is let in',
    file: 'core/dispatch.ts',
    find: 'if (broken) throw',
    put: 'if (broken && input === null) throw',
    tests: ['tests/core/door/badInput.test.ts'],
  },
  {
    what: 'halves are rounded up instead of away from zero',
    file: 'core/shared/money.ts',
    find: '(size * 2n + denominator) /',
    put: '(size * 2n + denominator - (negative ? 1n : 0n)) /',
    tests: ['tests/core/billing/totals.test.ts'],
  },
  {
    what: 'money above what is owed needs no name',
    file: 'core/billing/rules/owed.ts',
    find: 'if (left > 0 && surplus === null) refuse',
    put: 'if (left > 1_000_000 && surplus === null) refuse',
    tests: [MONEY],
  },
  {
    what: 'document numbers skip one',
    file: 'core/billing/rules/numbers.ts',
    find: 'return Math.max(lastInFile, lastOnPaper) + 1;',
    put: 'return Math.max(lastInFile, lastOnPaper) + 2;',
    tests: [MONEY],
  },
  {
    what: 'the database lets two cars into one bay',
    file: 'migrations/0007_bays.sql',
    find: 'WHEN (SELECT capacity FROM bay WHERE id = NEW.bay_id) = 1 AND EXISTS (',
    put: 'WHEN (SELECT capacity FROM bay WHERE id = NEW.bay_id) = 0 AND EXISTS (',
    tests: [GUARDS],
  },
  {
    what: 'the database lets journal lines be deleted',
    file: 'migrations/0001_spine.sql',
    find: 'CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal',
    put: 'CREATE TRIGGER journal_no_delete BEFORE DELETE ON session',
    tests: [GUARDS],
  },
  {
    what: 'append-only rows can be replaced',
    file: 'core/db/open.ts',
    find: "raw.pragma('recursive_triggers = ON');",
    put: '',
    tests: [GUARDS],
  },
  ...STOCK_MUTANTS,
  {
    what: 'changed migrations are not noticed',
    file: 'core/db/migrate.ts',
    find: 'if (row?.hash !== file.hash)',
    put: 'if (row === undefined)',
    tests: [MIGRATE],
  },
  {
    what: 'a file from a newer version is opened',
    file: 'core/db/migrate.ts',
    find: 'if (at > files.length)',
    put: 'if (at > files.length + 1)',
    tests: [MIGRATE],
  },
  {
    what: 'a session never ends',
    file: 'core/access/session.ts',
    find: 'if (now - row.startedMs >= (row.sessionMin ?? USUAL_MIN) * MS_PER_MIN) return null;',
    put: '',
    tests: ['tests/core/access/access.test.ts'],
  },
  ...BAYS_MUTANTS,
  ...WHAT_IF_MUTANTS,
  ...LABOUR_MUTANTS,
  ...MONEY_MUTANTS,
  ...THING_MUTANTS,
  ...FIGURES_MUTANTS,
  ...GONE_MUTANTS,
  ...SUM_MUTANTS,
  {
    what: 'time in a bay over an edge of two cells counts in both',
    file: 'core/figures/rules/utilization.ts',
    find: 'at = Math.max(at, minute);',
    put: 'if (what < EDGE) at = Math.max(at, minute);',
    tests: ['tests/core/figures/utilization.test.ts'],
  },
  {
    what: 'a figure is answered from memory after somebody wrote',
    file: 'core/views/remembered.ts',
    find: 'if (before?.version === version && before.minute === minute)',
    put: 'if (before !== undefined && before.minute === minute)',
    tests: ['tests/core/figures/remembered.test.ts'],
  },
  {
    what: 'a job that lacks two things is lost twice on the Monday page',
    file: 'core/figures/rules/mondayThing.ts',
    find: 'return [...new Map(all.map((s) => [s.jobId, s])).values()];',
    put: 'return all;',
    tests: ['tests/core/figures/monday.test.ts'],
  },
  {
    what: 'what rounding leaves over of a shared job is lost',
    file: 'core/figures/rules/moneySums.ts',
    find: 'Math.round((whole * upTo) / all) - Math.round((whole * before) / all)',
    put: 'Math.floor((whole * (upTo - before)) / all)',
    tests: ['tests/core/figures/money.test.ts'],
  },
];
