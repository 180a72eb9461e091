import type { Mutant } from './mutant.ts';

const VOUCHERS = ['tests/core/billing/vouchers.test.ts'];
const TAXES = ['tests/core/billing/stackedTax.test.ts'];
const LOGO = ['tests/core/shop/logo.test.ts'];

/** Faults in vouchers, several taxes on one sale, tips that are paid out, and the logo. */
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
];
