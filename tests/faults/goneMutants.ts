import type { Mutant } from './mutant.ts';

const GONE = 'tests/core/figures/gone.test.ts';
const MONDAY = 'tests/core/figures/monday.test.ts';
const MONEY = 'tests/core/figures/mondayMoney.test.ts';

/** Faults in what is told of cars and people that are gone, and of what is left to bill and to agree to. */
export const GONE_MUTANTS: readonly Mutant[] = [
  {
    what: 'work is told in the bay that the rest of its stage was moved to',
    file: 'core/views/bayRecord.ts',
    find: 'SELECT coalesce(w.bay_id, ',
    put: 'SELECT coalesce(NULL, ',
    tests: [GONE],
  },
  {
    what: 'a car whose job was cancelled while it was here never stood anywhere',
    file: 'core/bays/commands/plan.ts',
    find: 'hasCome(ctx.db, jobId) ? stoodBy(plan.stays, nowMin) : []',
    put: '[]',
    tests: [GONE],
  },
  {
    what: 'a bay is full as long as the plan has a car there that was fetched',
    file: 'core/views/mondayBays.ts',
    find: " AND j.state NOT IN ('collected', 'cancelled', 'noShow')`,",
    put: '`,',
    tests: [GONE],
  },
  {
    what: 'one more bay shuts the first of its kind until it began',
    file: 'core/figures/rules/whatIfLay.ts',
    find: 'const later = known.some(',
    put: 'const later = setup.bays.some(',
    tests: ['tests/core/figures/whatIfRules.test.ts'],
  },
  {
    what: 'finished work is worth all of it though partial invoices billed some',
    file: 'core/views/mondayMoney.ts',
    find: ' - (partlyMinor ?? 0)',
    put: '',
    tests: [MONEY],
  },
  {
    what: 'a draft counts as an invoice on the Monday page',
    file: 'core/views/mondayMoney.ts',
    find: 'const jobs = jobsUnbilled(db);',
    put: 'const jobs = jobsUnbilled(db).filter((j) => !allRows(db, "SELECT 1 FROM billed_share WHERE issued = 0 AND job_id = :id", { id: j.jobId }).length);',
    tests: [MONEY],
  },
  {
    what: 'more work that was declined turns an agreed quote into a no',
    file: 'core/views/quotesAnswered.ts',
    find: "(n.state = 'accepted' OR (n.version > q.version AND n.sent_ms IS NOT NULL))",
    put: '(n.version > q.version AND n.sent_ms IS NOT NULL)',
    tests: [MONEY],
  },
  {
    what: 'a no that was only told counts nowhere',
    file: 'core/billing/commands/quotes.ts',
    find: "state: 'declined', sentMs: row.sentMs ?? ctx.now",
    put: "state: 'declined'",
    tests: [MONEY],
  },
  {
    what: 'what nobody knows the worth of is told as all right',
    file: 'core/figures/rules/monday.ts',
    find: 'CANDIDATES.flatMap((make) => make(facts) ?? []).toSorted(byWorth)',
    put: 'CANDIDATES.flatMap((make) => make(facts) ?? []).filter((t) => t.savedMinor > 0 || t.promises > 0).toSorted(byWorth)',
    tests: [MONDAY],
  },
  {
    what: 'a bay begins after work that was done in it',
    file: 'core/bays/store/setup.ts',
    find: '\n       UNION ALL SELECT w.start_ms / 60000 FROM stage_work w WHERE w.bay_id = :bayId',
    put: '',
    tests: [GONE],
  },
];
