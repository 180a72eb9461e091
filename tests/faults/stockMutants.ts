import type { Mutant } from './mutant.ts';

/** Planted faults in what the shelf says. */
export const STOCK_MUTANTS: readonly Mutant[] = [
  {
    what: 'the stock level does not follow its ledger',
    file: 'migrations/0008_stock.sql',
    find: '    qty = qty + NEW.qty,',
    put: '    qty = qty + NEW.qty + 1,',
    tests: ['tests/core/stock/stageDraws.test.ts'],
  },
  {
    what: 'a low share aimed at is served like a high one',
    file: 'core/stock/rules/reorder.ts',
    find: 'let [low, high] = [-8, 8];',
    put: 'let [low, high] = [0, 8];',
    tests: ['tests/core/stock/rules/year.test.ts'],
  },
  {
    what: 'what jobs are booked for may run short where the aim is low',
    file: 'core/stock/rules/suggest.ts',
    find: 'leastKept(usualByThen)',
    put: 'leastKept(reserved + usualByThen)',
    tests: ['tests/core/stock/rules/suggest.test.ts'],
  },
  {
    what: 'the day to order by waits until the share aimed at is used up',
    file: 'core/stock/rules/suggest.ts',
    find: 'safety: Math.max(0, safety) }).below',
    put: 'safety }).below',
    tests: ['tests/core/stock/orderBy.test.ts'],
  },
  {
    what: 'jobs that are booked count again on the second item of their material',
    file: 'core/views/stockOutlook.ts',
    find: 'taker.has(item.material);',
    put: 'taker.get(item.material)?.id === item.id;',
    tests: ['tests/core/stock/orderBy.test.ts'],
  },
  {
    what: 'an empty shelf waits until the share aimed at is used up',
    file: 'core/stock/rules/suggest.ts',
    find: 'return Math.min(0, 1 - usual);',
    put: 'return -2 * usual;',
    tests: ['tests/core/stock/rules/suggest.test.ts'],
  },
  {
    what: 'what one opened container drew until it was read is taken from the next one over again',
    file: 'core/stock/commands/containers.ts',
    find: 'for (const { id, rest } of others)',
    put: 'for (const { id, rest } of others.slice(1))',
    tests: ['tests/core/stock/twoContainers.test.ts'],
  },
  {
    what: 'a slip that is put right the day after stays in the usual use',
    file: 'core/views/stockHistory.ts',
    find: 'put(drawnMs, amount);',
    put: 'put(atMs, amount);',
    tests: ['tests/core/stock/drawnPerDay.test.ts'],
  },
  {
    what: 'what a correction takes back comes first in, first out as a purchase of its own',
    file: 'core/stock/rules/fifoLedger.ts',
    find: 'else if (qty > 0 && correctsId) giveBack',
    put: 'else if (qty > 0 && correctsId && id === 0) giveBack',
    tests: ['tests/core/stock/rules/fifoLedger.test.ts'],
  },
  {
    what: 'one canister that came for four bottles leaves three of them due',
    file: 'core/stock/rules/deliveries.ts',
    find: 'return Math.floor(amount / orderedSize + 0.5);',
    put: 'return Math.min(1, Math.floor(amount / orderedSize + 0.5));',
    tests: ['tests/core/stock/ordering.test.ts'],
  },
];
