import type { Mutant } from './mutant.ts';

const VOUCHERS = ['tests/core/billing/vouchers.test.ts'];
const TAXES = ['tests/core/billing/stackedTax.test.ts'];
const LOGO = ['tests/core/shop/logo.test.ts'];

const PARTIALS = ['tests/core/billing/partial.test.ts'];

/** Faults in vouchers, several taxes on one sale, tips that are paid out, partial invoices, and the logo. */
export const MONEY_MUTANTS: readonly Mutant[] = [
  {
    what: 'a gift voucher is taken after its last day',
    file: 'core/billing/rules/vouchers.ts',
    find: 'if (expiresDay !== null && today > expiresDay)',
    put: 'if (expiresDay !== null && today < expiresDay && leftMinor < 0)',
    tests: VOUCHERS,
  },
  {
    what: 'a gift voucher holds less than nothing in the file',
    file: 'migrations/0009_billing.sql',
    find: '  NOT BETWEEN 0 AND (SELECT v.value_minor',
    put: '  NOT BETWEEN -1000000000 AND (SELECT v.value_minor',
    tests: VOUCHERS,
  },
  {
    what: 'what a taxed voucher takes off is revenue a second time',
    file: 'core/billing/rules/journal.ts',
    find: "...vouchers.flatMap((v) => post(invoice, 'vouchersHeld', -v.netMinor)),",
    put: "...vouchers.flatMap((v) => post(invoice, 'revenue', -v.netMinor)),",
    tests: VOUCHERS,
  },
  {
    what: 'a taxed voucher comes off with the tax of the day instead of its own amount before tax',
    file: 'core/billing/commands/vouchersOff.ts',
    find: "book(ctx, row, voucherId, 'used', { amountMinor: -amountMinor, netMinor: -netOff(voucher, amountMinor) });",
    put: "book(ctx, row, voucherId, 'used', { amountMinor: -amountMinor, netMinor: -amountMinor });",
    tests: VOUCHERS,
  },
  {
    what: 'the sale of a used voucher is credited as if nobody had used it',
    file: 'core/billing/commands/vouchersOff.ts',
    find: "if (askedMinor > leftMinor) refuse('VOUCHER_SPENT', { number, leftMinor, askedMinor });\n  const off",
    put: 'const off',
    tests: VOUCHERS,
  },
  {
    what: 'a voucher gets back more than it paid on a document',
    file: 'core/billing/commands/vouchers.ts',
    find: 'Math.min(-used, -owedNow(ctx, row)) as Minor',
    put: '(-owedNow(ctx, row)) as Minor',
    tests: VOUCHERS,
  },
  {
    what: 'a further tax on the same sale counts its net again',
    file: 'core/billing/rules/taxShares.ts',
    find: 'row.net += at === 0 ? netMinor : 0;',
    put: 'row.net += netMinor;',
    tests: TAXES,
  },
  {
    what: 'a tax reckoned on tax forgets the taxes before it',
    file: 'core/billing/rules/taxShares.ts',
    find: "'onTax' in part && part.onTax ? netMinor + before : netMinor",
    put: "'onTax' in part && part.onTax ? netMinor : netMinor",
    tests: TAXES,
  },
  {
    what: 'an e-invoice is written of a document with several taxes on a line',
    file: 'core/documents/ubl.ts',
    find: "if (stacked) refuse('UBL_STACKED_TAX', { text: stacked.text });",
    put: '',
    tests: TAXES,
  },
  {
    what: 'labour that is not taxed takes the tax of materials',
    file: 'core/billing/rules/labourTax.ts',
    find: 'isLabour(line) || FOR_LABOUR.includes(line.what) ? { ...line, tax } : line',
    put: 'line',
    tests: TAXES,
  },
  {
    what: 'tips are paid out that were given to somebody else',
    file: 'core/billing/store/payments.ts',
    find: "WHERE p.kind = 'tip' AND p.person_id IS :personId",
    put: "WHERE p.kind = 'tip' AND (p.person_id IS :personId OR 1)",
    tests: ['tests/core/billing/tips.test.ts'],
  },
  {
    what: 'a spoiled picture is taken as the logo',
    file: 'core/shop/logo.ts',
    find: 'if (crc32(chunk) !== bytes.readUInt32BE(at + 8 + size)) return false;',
    put: '',
    tests: LOGO,
  },
  {
    what: 'copies leave the logo out that issued documents bear',
    file: 'core/db/pictures.ts',
    find: "'SELECT hash FROM shop_logo'",
    put: "'SELECT hash FROM shop_logo WHERE removed_ms IS NULL'",
    tests: LOGO,
  },
  {
    what: 'a panel without a price costs nothing',
    file: 'core/billing/rules/panelPrices.ts',
    find: "if (priceMinor === null) return refuse('PANEL_UNPRICED', { panel, level });",
    put: 'if (priceMinor === null) continue;',
    tests: ['tests/core/billing/listPrices.test.ts'],
  },
  {
    what: 'a price of the list holds before its day',
    file: 'core/views/listPrices.ts',
    find: 'if (row.fromDay > day || seen.has(thingOf(row))) return false;',
    put: 'if (seen.has(thingOf(row))) return false;',
    tests: ['tests/core/billing/listPrices.test.ts'],
  },
  {
    what: 'the file takes a part of a line that a partial invoice billed before',
    file: 'migrations/0009_billing.sql',
    find: 'BETWEEN min(0, whole) AND max(0, whole)',
    put: 'BETWEEN min(0, whole) AND 2 * max(0, whole)',
    tests: PARTIALS,
  },
  {
    what: 'the file lets the invoice of the rest forget a partial invoice',
    file: 'migrations/0009_billing.sql',
    find: "WHEN NEW.number IS NOT NULL AND NEW.kind = 'invoice' AND NEW.job_id IS NOT NULL",
    put: "WHEN NEW.number < 0 AND NEW.kind = 'invoice' AND NEW.job_id IS NOT NULL",
    tests: PARTIALS,
  },
  {
    what: 'each partial invoice rounds its tax for itself',
    file: 'core/billing/rules/partialTax.ts',
    find: 'const moves = isEven(bill, groups, own) ? own : movesOf(groups).find((all) => isEven(bill, groups, all));',
    put: 'const moves = own.map(() => 0);',
    tests: ['tests/core/billing/partialRules.test.ts'],
  },
  {
    what: 'a partial invoice bills ahead of the work without a word',
    file: 'core/billing/commands/issue.ts',
    find: "if (row.kind === 'partial') return isPartialAhead(ctx, row);",
    put: '',
    tests: PARTIALS,
  },
  {
    what: 'the rest after a partial invoice is issued below zero',
    file: 'core/billing/commands/takenOff.ts',
    find: 'if (number !== null && totals.toPayMinor < 0)',
    put: 'if (number !== null && totals.toPayMinor < -1_000_000_000)',
    tests: PARTIALS,
  },
  {
    what: 'a credit note of a partial invoice releases nothing of its lines',
    file: 'core/billing/commands/partialIssue.ts',
    find: "const partial = row.kind === 'credit' && row.ofInvoiceId ? invoiceOf(ctx.db, row.ofInvoiceId) : row;",
    put: 'const partial = invoiceOf(ctx.db, row.id);',
    tests: PARTIALS,
  },
  {
    what: 'a partial invoice is taken off both halves of a split bill',
    file: 'core/billing/commands/takenOff.ts',
    find: 'const partials = isPart(row.bill) ? [] : openPartials(ctx.db, jobId);',
    put: 'const partials = openPartials(ctx.db, jobId);',
    tests: PARTIALS,
  },
  {
    what: 'another quote agreed to leaves what partial invoices billed of the first one out',
    file: 'core/billing/commands/partialIssue.ts',
    find: 'return billedOf(bill, billedOfOption(ctx.db, quoteId, letter), others);',
    put: 'return billedOf(bill, billedOfOption(ctx.db, quoteId, letter), 0 * others);',
    tests: PARTIALS,
  },
];
