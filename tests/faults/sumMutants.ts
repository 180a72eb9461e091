import type { Mutant } from './mutant.ts';

const SUMS = ['tests/core/figures/keptSums.test.ts'];
const BILLING = 'migrations/0009_billing.sql';
const FIGURES = 'migrations/0010_figures.sql';

/** Faults in what triggers keep beside the records: sums of jobs, and lists of what is open. */
export const SUM_MUTANTS: readonly Mutant[] = [
  {
    what: 'the kept rest of a document forgets its credit notes',
    file: BILLING,
    find: 'owed_minor = owed_minor + NEW.to_pay_minor WHERE invoice_id = NEW.of_invoice_id',
    put: 'owed_minor = owed_minor WHERE invoice_id = NEW.of_invoice_id',
    tests: SUMS,
  },
  {
    what: 'the kept rest of a document forgets what was laid on it',
    file: BILLING,
    find: 'SET owed_minor = owed_minor - NEW.amount_minor',
    put: 'SET owed_minor = owed_minor',
    tests: SUMS,
  },
  {
    what: 'the kept share of work stands after a credit note of all',
    file: BILLING,
    find: "WHEN NEW.kind = 'credit' AND NEW.number IS NOT NULL BEGIN\n  DELETE FROM billed_share",
    put: "WHEN NEW.kind = 'credit' AND NEW.number < 0 BEGIN\n  DELETE FROM billed_share",
    tests: SUMS,
  },
  {
    what: 'the kept share of a dropped draft stays',
    file: BILLING,
    find: 'CREATE TRIGGER invoice_share_gone BEFORE DELETE ON invoice\nBEGIN DELETE FROM billed_share WHERE invoice_id = OLD.id; END;',
    put: '',
    tests: ['tests/core/billing/split.test.ts'],
  },
  {
    what: 'the kept list of unbilled jobs does not notice that a job is ready',
    file: BILLING,
    find: 'AFTER UPDATE OF state, redo_of_job_id ON job BEGIN',
    put: 'AFTER UPDATE OF redo_of_job_id ON job BEGIN',
    tests: SUMS,
  },
  {
    what: 'the kept list of unbilled jobs does not notice an invoice',
    file: BILLING,
    find: 'AFTER INSERT ON billed_share WHEN NEW.issued = 1 BEGIN',
    put: 'AFTER INSERT ON billed_share WHEN NEW.issued = 2 BEGIN',
    tests: SUMS,
  },
  {
    what: 'the kept net of a job forgets documents for several jobs',
    file: 'core/billing/commands/issue.ts',
    find: 'addCollectiveNet(ctx.db, { invoiceId, jobId, netMinor });',
    put: 'if (netMinor < 0) addCollectiveNet(ctx.db, { invoiceId, jobId, netMinor });',
    tests: ['tests/core/billing/collective.test.ts'],
  },
  {
    what: 'the kept net of a job counts a taxed voucher twice',
    file: FIGURES,
    find: 'SELECT i.job_id, -NEW.net_minor, 0 FROM invoice i',
    put: 'SELECT i.job_id, 0, 0 FROM invoice i',
    tests: ['tests/core/billing/vouchersBack.test.ts'],
  },
  {
    what: 'the kept material of a job is only the last draw',
    file: FIGURES,
    find: 'DO UPDATE SET drawn_minor = drawn_minor + excluded.drawn_minor',
    put: 'DO UPDATE SET drawn_minor = excluded.drawn_minor',
    tests: SUMS,
  },
  {
    what: 'the kept uses of pads are only the last ones',
    file: FIGURES,
    find: 'coalesce(json_extract(uses, path), 0) + NEW.pieces',
    put: 'NEW.pieces',
    tests: SUMS,
  },
  {
    what: 'the kept time of a person stays when a stretch is corrected to another',
    file: FIGURES,
    find: 'AND person_id = OLD.person_id AND job_id',
    put: 'AND person_id = NEW.person_id AND job_id',
    tests: SUMS,
  },
  {
    what: 'the kept time of a person stays when a stretch is taken out',
    file: FIGURES,
    find: 'AFTER DELETE ON stage_work WHEN OLD.end_ms IS NOT NULL BEGIN',
    put: 'AFTER DELETE ON stage_work WHEN OLD.end_ms < 0 BEGIN',
    tests: SUMS,
  },
  {
    what: 'a job redone a second time is charged to nobody',
    file: 'core/views/jobSums.ts',
    find: 'UNION SELECT u.id, j.redo_of_job_id FROM up u',
    put: 'UNION SELECT u.id, j.redo_of_job_id FROM up u CROSS JOIN (SELECT 1 WHERE 0)',
    tests: ['tests/core/figures/margin.test.ts'],
  },
];
