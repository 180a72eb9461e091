import type { Mutant } from './mutant.ts';

const EACH = 'tests/core/figures/keptDays.test.ts';

/** Faults in what is kept of past days. */
export const FIGURES_MUTANTS: readonly Mutant[] = [
  {
    what: 'days are told as they were kept, whatever has changed since',
    file: 'core/views/keptDays.ts',
    find: ' && openBetween(stale, startMin, endMin) === 0',
    put: '',
    tests: [EACH],
  },
  {
    what: 'work that was taken out marks only the days that its job still reaches',
    file: 'migrations/0010_figures.sql',
    find: `CREATE TRIGGER kept_work_delete AFTER DELETE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, OLD.start_ms / 60000, coalesce(OLD.end_ms / 60000 + 1, 1000000000)`,
    put: `CREATE TRIGGER kept_work_delete AFTER DELETE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000`,
    tests: [EACH],
  },
  {
    what: 'a stage that is finished on another day marks only the new one',
    file: 'migrations/0010_figures.sql',
    find: `  INSERT INTO kept_mark VALUES (OLD.job_id, coalesce(OLD.started_ms, OLD.done_ms, 1000000000 * 60000) / 60000,
    CASE WHEN OLD.done_ms IS NOT NULL THEN OLD.done_ms / 60000 + OLD.dwell_min + 1
      WHEN OLD.started_ms IS NULL THEN -1000000000
      WHEN OLD.state = 'dropped' THEN OLD.started_ms / 60000 + OLD.p50_min + OLD.dwell_min + 1 ELSE 1000000000 END);
  INSERT`,
    put: '  INSERT',
    tests: [EACH],
  },
  {
    what: 'a job marks its days only as far as its car was there',
    file: 'core/views/keptDays.ts',
    find: `      coalesce(g.to_min, -\${FAR_MIN}), coalesce(w.to_min, -\${FAR_MIN})) AS endMin`,
    put: '      s.to_min) AS endMin',
    tests: [EACH],
  },
  {
    what: 'days that no longer hold stay in when the marks are taken away',
    file: 'core/figures/store/keptDays.ts',
    find: "    run(db, 'DELETE FROM kept_day WHERE end_min > ? AND start_min < ?', startMin, endMin);",
    put: "    run(db, 'DELETE FROM kept_day WHERE end_min > ? AND start_min < ?', endMin, startMin);",
    tests: [EACH],
  },
  {
    what: 'a day to come is told as it was kept before the clock went back',
    file: 'core/views/keptDays.ts',
    find: ' AND end_min <= :nowMin',
    put: '',
    tests: [EACH],
  },
];
