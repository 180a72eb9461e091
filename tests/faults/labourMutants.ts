import type { Mutant } from './mutant.ts';

const COST = ['tests/core/access/hourCost.test.ts'];
const SAID = 'core/access/rules/hourCost.ts';
const WORKED = 'core/views/labourCost.ts';

/** Faults in what an hour of somebody costs, and in what work is told to have cost by it. */
export const LABOUR_MUTANTS: readonly Mutant[] = [
  {
    what: 'what an hour costs is read by everybody',
    file: 'core/shared/catalogue/access.ts',
    find: "'access.hourCosts': read<readonly HourCostRow[]>()({\n    needs: 'owner',",
    put: "'access.hourCosts': read<readonly HourCostRow[]>()({\n    needs: 'technician',",
    tests: COST,
  },
  {
    what: 'a cost is said over what somebody else has said meanwhile',
    file: 'core/access/hourCost.ts',
    find: "if ((stood?.hourMinor ?? null) !== input.wasMinor) refuse('STALE', { what: 'person' });",
    put: '',
    tests: COST,
  },
  {
    what: 'what an hour costs is taken for so many units of another currency',
    file: 'core/views/shop.ts',
    find: ' UNION ALL SELECT 1 FROM hour_cost LIMIT 1',
    put: ' LIMIT 1',
    tests: ['tests/core/shop/setUp.test.ts'],
  },
  {
    what: 'an hour costs something before the first day of whoever it is',
    file: SAID,
    find: 'day < firstDay || ',
    put: '',
    tests: COST,
  },
  {
    what: 'hours typed in before somebody’s first day can have no cost',
    file: SAID,
    find: 'workedDay !== null && workedDay < startedDay ? workedDay : startedDay',
    put: 'startedDay',
    tests: COST,
  },
  {
    what: 'a digit too many in what an hour costs is not asked about',
    file: SAID,
    find: 'Math.max(hourMinor / c.hourMinor, c.hourMinor / hourMinor)',
    put: 'c.hourMinor / hourMinor',
    tests: COST,
  },
  {
    what: 'all work costs what an hour costs now',
    file: WORKED,
    find: 'if (cost.fromMin <= minute) return cost;',
    put: 'if (cost.fromMin <= minute) return costs[0];',
    tests: COST,
  },
  {
    what: 'work on both sides of a raise costs what its first hour did',
    file: WORKED,
    find: 'if (first === at(costs, lastMin))',
    put: 'if (costs.length > 0)',
    tests: COST,
  },
  {
    what: 'hours of which no cost is known are not named',
    file: WORKED,
    find: 'else unknownMs += ms;',
    put: '',
    tests: COST,
  },
  {
    what: 'the kept ends of somebody’s work do not widen',
    file: 'migrations/0010_figures.sql',
    find: `SELECT s.job_id, NEW.person_id, NEW.end_ms - NEW.start_ms, NEW.start_ms, NEW.start_ms FROM job_stage s WHERE s.id = NEW.stage_id
  ON CONFLICT (job_id, person_id) DO UPDATE SET worked_ms = worked_ms + excluded.worked_ms,
    first_ms = min(first_ms, excluded.first_ms), last_ms = max(last_ms, excluded.last_ms);`,
    put: `SELECT s.job_id, NEW.person_id, NEW.end_ms - NEW.start_ms, NEW.start_ms, NEW.start_ms FROM job_stage s WHERE s.id = NEW.stage_id
  ON CONFLICT (job_id, person_id) DO UPDATE SET worked_ms = worked_ms + excluded.worked_ms;`,
    tests: COST,
  },
  {
    what: 'redone work wears no pads',
    file: 'core/views/warranty.ts',
    find: 'sum + drawnMinor + worn(uses)',
    put: 'sum + drawnMinor + 0 * worn(uses)',
    tests: ['tests/core/figures/margin.test.ts'],
  },
  {
    what: 'redone hours of which no cost is known cost nothing',
    file: 'core/views/warranty.ts',
    find: 'materialMinor + labourMinor + unknown)',
    put: 'materialMinor + labourMinor)',
    tests: COST,
  },
  {
    what: 'the margin is told before labour',
    file: 'core/figures/rules/moneySums.ts',
    find: 'const margin = of.netMinor - of.materialMinor - of.labourMinor;',
    put: 'const margin = of.netMinor - of.materialMinor;',
    tests: ['tests/core/figures/money.test.ts'],
  },
];
