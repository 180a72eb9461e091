import type { Mutant } from './mutant.ts';

const QUOTED = ['tests/core/billing/quotedThings.test.ts'];
const HANDED = ['tests/core/flows/handOverThings.test.ts'];
const RULES = 'core/billing/rules/quotedThings.ts';

/** Faults in things of the price list that stand beside the work of a quote. */
export const THING_MUTANTS: readonly Mutant[] = [
  {
    what: 'a quoted thing is sold before its first price begins',
    file: RULES,
    find: 'const holds = begun[0];',
    put: 'const holds = begun[0] ?? asked;',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing has a price of a later day',
    file: RULES,
    find: 'own.filter((row) => row.fromDay <= day)',
    put: '[...own]',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing is sold after it ended, for nothing',
    file: RULES,
    find: 'return priceMinor === null',
    put: 'return priceMinor === undefined',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing is taken a hundred times without a question',
    file: RULES,
    find: 'if (quantity > MOST_PIECES && !ask.manyMeant)',
    put: 'if (quantity > 100 * MOST_PIECES && !ask.manyMeant)',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing comes to more than is reckoned exactly',
    file: RULES,
    find: 'if (!isBillable(quantity, thing.priceMinor))',
    put: 'if (!isBillable(quantity, 0))',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing is given more discount than it costs',
    file: RULES,
    find: 'if (lineAmount(line) < 0)',
    put: 'if (lineAmount(line) < -wholeMinor)',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing is billed where no work was done',
    file: RULES,
    find: 'return work.length === 0 ? work :',
    put: 'return',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing of a list with tax stands beside an estimate without',
    file: 'core/billing/commands/optionPrice.ts',
    find: 'if (estimate.price.taxIncluded !== pricesIncludeTax)',
    put: 'if (asked.length > 1000)',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing raises the rush of the work',
    file: 'core/billing/commands/optionPrice.ts',
    find: '...things.filter(isWorkLine)]',
    put: '...things]',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing alone on a draft leaves the job to be billed once more',
    file: 'core/billing/rules/workDone.ts',
    find: 'isWorkLine(line) || isQuotedThing(line)',
    put: 'isWorkLine(line)',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing alone on an invoice leaves the job in the list of what to bill',
    file: 'migrations/0009_billing.sql',
    find: "OR l.value ->> 'quoted' IS NOT NULL)",
    put: ')',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing is lost where the job is billed by its time',
    file: 'core/billing/commands/invoices.ts',
    find: 'lines: withThings(withLabourTax(withCharges(work, whole, tax, textOf), labourTax), option.bill.lines),',
    put: 'lines: withLabourTax(withCharges(work, whole, tax, textOf), labourTax),',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing that reads like another is shown as one with it',
    file: 'core/shared/text/quoteLines.ts',
    find: 'if (alone) times.set(label, n + 1);',
    put: '',
    tests: QUOTED,
  },
  {
    what: 'a quoted thing that stays in the shop leaves its stock',
    file: 'core/flows/handOver.ts',
    find: 'if (!things) return;',
    put: '',
    tests: HANDED,
  },
  {
    what: 'a quoted thing comes from the item of the day it was quoted on',
    file: 'core/views/agreedThings.ts',
    find: 'priced && thingOf(row) === thingOf(priced) && row.fromDay <= day',
    put: 'row === priced && row.fromDay <= day',
    tests: HANDED,
  },
  {
    what: 'a quoted thing is what goes round in the shop',
    file: 'core/shop/charges.ts',
    find: 'if (item.reusable)',
    put: 'if (item.name === "")',
    tests: HANDED,
  },
];
