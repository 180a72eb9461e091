import { money, moneyPlain } from '../shared/text/format.ts';
import type { PaperManner } from '../shared/text/manner.ts';
import { say } from '../shared/text/say.ts';
import { date } from '../shared/text/when.ts';
import type { StatementView } from '../shared/views/statement.ts';
import { mannerOf, openLetter, partyLines, small } from './letter.ts';
import { finishPdf, sideBySide, space } from './pdfKit.ts';
import { type TableRow, table } from './pdfTable.ts';

/** A customer's statement of account: where it stood, what changed it and where it stands. */
export async function statementPdf(statement: StatementView, createdMs: number): Promise<Uint8Array> {
  const { seller, customer, fromDay, toDay, closingMinor } = statement;
  const manner = mannerOf(seller);
  const { locale } = manner;
  const period = say(locale, 'doc.statement.period', {
    from: date(manner, fromDay),
    to: date(manner, toDay),
  });
  const pdf = openLetter(seller, { title: say(locale, 'doc.statement'), under: [period], createdMs });
  sideBySide(pdf, [{ share: 1, lines: partyLines(say(locale, 'doc.for'), customer, locale) }]);
  space(pdf, 16);
  const columns = [
    { title: say(locale, 'doc.date'), share: 2.4 },
    { title: say(locale, 'doc.statement.what'), share: 5 },
    { title: manner.currency, share: 2.4, align: 'right' },
    { title: say(locale, 'doc.statement.balance'), share: 2.6, align: 'right' },
  ] as const;
  table(pdf, columns, statementRows(statement, manner));
  space(pdf, 10);
  small(pdf, say(locale, closingMinor < 0 ? 'doc.statement.held' : 'doc.statement.owed'));
  return finishPdf(pdf);
}

function statementRows(statement: StatementView, manner: PaperManner): TableRow[] {
  const { locale } = manner;
  const { fromDay, toDay, openingMinor, closingMinor } = statement;
  const stands = (key: 'opening' | 'closing', day: string, minor: number): TableRow => ({
    cells: [day, say(locale, `doc.statement.${key}`), '', money(manner, minor)],
    style: 'strong',
    rule: 'strong',
  });
  return [
    stands('opening', date(manner, fromDay), openingMinor),
    ...statement.entries.map(
      (e): TableRow => ({
        cells: [
          date(manner, e.day),
          say(locale, e.what === 'use' ? 'doc.statement.use' : `doc.${e.what}`, { number: e.number }),
          moneyPlain(manner, e.amountMinor),
          moneyPlain(manner, e.balanceMinor),
        ],
      }),
    ),
    stands('closing', date(manner, toDay), closingMinor),
  ];
}
