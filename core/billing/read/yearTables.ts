import type { ReadCtx } from '../../context.ts';
import type { YearTable } from '../../documents/yearTables.ts';
import { say } from '../../shared/text/say.ts';
import { addLocalDays, instantOf } from '../../shared/time.ts';
import type { LocalDay } from '../../shared/units.ts';
import type { TaxBasis } from '../../shared/views/billingReports.ts';
import { documentGaps } from '../../views/documentGaps.ts';
import { shopOf } from '../../views/shop.ts';
import { numbersIn, openItemsOn, stockWorth } from '../../views/yearEnd.ts';
import { localeOf } from '../commands/lines.ts';
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
      String(row.ratePpm / 10_000),
      String(row.documents),
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
      String(row.number),
      row.customer,
      row.issuedDay,
      row.dueDay,
      { minor: row.toPayMinor },
      { minor: row.openMinor },
    ]),
  };
}

/** What lay in stock at the end of the last day. */
export function stockTable(ctx: ReadCtx, { toDay }: Year): YearTable {
  const endMs = instantOf(addLocalDays(toDay, 1), 0, shopOf(ctx.db).zone);
  return {
    columns: ['doc.year.item', 'doc.year.amount', 'doc.year.unit', 'doc.year.value'],
    rows: stockWorth(ctx.db, endMs).map((row) => [
      row.item,
      String(row.qty),
      row.unit,
      { minor: row.valueMinor },
    ]),
  };
}

/** Both sides by account and in all, the numbers issued, and those that are missing. */
export function proofTable(ctx: ReadCtx, year: Year): YearTable {
  const shop = shopOf(ctx.db);
  const locale = localeOf(shop);
  const proof = ledgerProof(readJournal(ctx, year));
  const numbers = numbersIn(ctx.db, year.fromDay, year.toDay);
  const gaps = documentGaps(ctx.db).join(' ');
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
      ['', say(locale, 'doc.year.numbers'), String(numbers?.first ?? ''), String(numbers?.last ?? '')],
      ['', say(locale, 'doc.year.gaps'), gaps || say(locale, 'doc.year.none'), ''],
    ],
  };
}
