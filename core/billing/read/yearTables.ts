import type { ReadCtx } from '../../context.ts';
import type { Cell, YearTable } from '../../documents/yearTables.ts';
import { LIST_UNITS, listFigure } from '../../shared/stockList.ts';
import { localeFor, say } from '../../shared/text/say.ts';
import { addLocalDays, instantOf } from '../../shared/time.ts';
import type { LocalDay } from '../../shared/units.ts';
import type { TaxBasis } from '../../shared/views/billingReports.ts';
import { documentGaps, type NumberRange } from '../../views/documentGaps.ts';
import { shopOf } from '../../views/shop.ts';
import { stockWorth } from '../../views/stockValue.ts';
import { vouchersOn } from '../../views/voucherReports.ts';
import { heldOn, numbersIn, openItemsOn } from '../../views/yearEnd.ts';
import { HELD_ACCOUNT } from '../rules/journal.ts';
import { ledgerProof } from '../rules/ledgerProof.ts';
import { readTaxReport } from './desk.ts';
import { readJournal } from './journal.ts';

export type Year = { readonly fromDay: LocalDay; readonly toDay: LocalDay };

/** Tax by rate, on one of the two bases. */
export function taxTable(ctx: ReadCtx, year: Year, basis: TaxBasis): YearTable {
  const report = readTaxReport(ctx, { ...year, basis });
  return {
    columns: ['tax.name', 'doc.journal.rate', 'tax.documents', 'tax.taxable', 'tax.tax'],
    rows: report.rows.map((row) => [
      row.name,
      { figure: row.ratePpm / 10_000 },
      { figure: row.documents },
      { minor: row.taxableMinor },
      { minor: row.taxMinor },
    ]),
  };
}

/** What was open at the end of the last day. */
export function openTable(ctx: ReadCtx, { toDay }: Year): YearTable {
  return {
    columns: [
      'doc.year.number',
      'doc.year.customer',
      'doc.year.issued',
      'doc.year.due',
      'doc.year.asked',
      'doc.year.open',
    ],
    rows: openItemsOn(ctx.db, toDay).map((row) => [
      { figure: row.number },
      row.customer,
      row.issuedDay,
      row.dueDay,
      { minor: row.toPayMinor },
      { minor: row.openMinor },
    ]),
  };
}

/** Whose money the shop held at the end of the last day: deposits, and credits kept for customers. */
export function heldTable(ctx: ReadCtx, { toDay }: Year): YearTable {
  const locale = localeFor(shopOf(ctx.db).locale);
  return {
    columns: [
      'doc.year.heldAs',
      'doc.year.customer',
      'doc.year.job',
      'doc.year.taken',
      'doc.year.receipt',
      'doc.year.takenMoney',
      'doc.year.held',
    ],
    rows: heldOn(ctx.db, toDay).map((row) => [
      say(locale, `doc.account.${HELD_ACCOUNT[row.kind]}`),
      row.customer,
      row.job === null ? '' : { figure: row.job },
      row.takenDay,
      { figure: row.receipt },
      { minor: row.takenMinor },
      { minor: row.heldMinor },
    ]),
  };
}

/** Every voucher that was sold until the end of the last day: what is left of it, and what the books owe for it. */
export function vouchersTable(ctx: ReadCtx, { toDay }: Year): YearTable {
  const locale = localeFor(shopOf(ctx.db).locale);
  return {
    columns: [
      'doc.year.voucher',
      'doc.year.purpose',
      'doc.year.customer',
      'doc.year.sold',
      'doc.year.until',
      'doc.year.value',
      'doc.year.used',
      'doc.year.letGo',
      'doc.year.left',
      'doc.year.owedBooks',
    ],
    rows: vouchersOn(ctx.db, toDay).map((row) => [
      { figure: row.number },
      say(locale, `setting.choice.${row.purpose}`),
      row.customer,
      row.soldDay,
      row.expiresDay ?? '',
      { minor: row.valueMinor },
      { minor: row.usedMinor },
      { minor: row.letGoMinor },
      { minor: row.leftMinor },
      { minor: row.owedMinor },
    ]),
  };
}

/** What lay in stock at the end of the last day, in the units of lists, worth what the shop counts by. */
export function stockTable(ctx: ReadCtx, { toDay }: Year): YearTable {
  const { zone, settings } = shopOf(ctx.db);
  const endMs = instantOf(addLocalDays(toDay, 1), 0, zone);
  const { costing } = settings.stock;
  return {
    columns: ['doc.year.item', 'doc.year.amount', 'doc.year.unit', `doc.year.worth.${costing}`],
    rows: stockWorth(ctx.db, endMs, costing).map((row) => [
      row.item,
      { figure: listFigure(row.qty, row.unit) },
      LIST_UNITS[row.unit].word,
      { minor: row.valueMinor },
    ]),
  };
}

/** Both sides by account and in all, the numbers issued, and those that are missing. */
export function proofTable(ctx: ReadCtx, year: Year): YearTable {
  const shop = shopOf(ctx.db);
  const locale = localeFor(shop.locale);
  const proof = ledgerProof(readJournal(ctx, year));
  const numbers = numbersIn(ctx.db, year.fromDay, year.toDay);
  const missing = numbers ? missingNumbers(ctx, numbers) : '';
  const { debitMinor, creditMinor } = proof;
  return {
    columns: ['doc.journal.code', 'doc.journal.account', 'doc.journal.debit', 'doc.journal.credit'],
    rows: [
      ...proof.accounts.map((sum) => [
        shop.settings.accounts[sum.account],
        say(locale, `doc.account.${sum.account}`),
        { minor: sum.debitMinor },
        { minor: sum.creditMinor },
      ]),
      ['', say(locale, 'doc.year.all'), { minor: debitMinor }, { minor: creditMinor }],
      ['', say(locale, 'doc.year.difference'), { minor: debitMinor - creditMinor }, ''],
      ['', say(locale, 'doc.year.numbers'), figureOf(numbers?.first), figureOf(numbers?.last)],
      ['', say(locale, 'doc.year.gaps'), missing || say(locale, 'doc.year.none'), ''],
    ],
  };
}

function figureOf(number: number | undefined): Cell {
  return number === undefined ? '' : { figure: number };
}

/** As they are read in a list: `4 9–12`. */
function missingNumbers(ctx: ReadCtx, within: NumberRange): string {
  return documentGaps(ctx.db, within)
    .map(({ first, last }) => (first === last ? String(first) : `${first}–${last}`))
    .join(' ');
}
