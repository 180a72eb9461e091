import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { settle } from '#core/billing/rules/cancellation.ts';
import { checkCredit, partOf } from '#core/billing/rules/credit.ts';
import { deductedTotals, depositFor, prepaymentBill } from '#core/billing/rules/deposit.ts';
import { confirmedLast, issueDay, nextDocumentNumber } from '#core/billing/rules/numbers.ts';
import {
  ageingOf,
  checkRefund,
  layMoney,
  overdueDays,
  owedOn,
  reminderLevel,
} from '#core/billing/rules/owed.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { sum, totalsOf } from '#core/billing/rules/totals.ts';
import { basisOfBill, halfWayLines, sharesOf, timedLines } from '#core/billing/rules/workDone.ts';
import type { Bill, LineTax } from '#core/shared/bill.ts';
import { DomainError } from '#core/shared/errors.ts';
import type { LocalDay, Minor, Ppm } from '#core/shared/units.ts';
import { testRates } from '../../helpers/billing.ts';

const VAT20: LineTax = { code: 'standard', category: 'S', ratePpm: 200_000, name: 'VAT', reason: '' };
const minor = (n: number): Minor => n as Minor;
const day = (d: string): LocalDay => d as LocalDay;
const name = (what: string): string => what;

/** 903.90 before tax, 180.78 tax, 1,084.68 to pay (by hand). */
function work(taxIncluded: boolean): Bill {
  return { lines: [agreedLine('labour.cut', 'Cut', 570, minor(90_390), VAT20)], extras: [], taxIncluded };
}

function codeOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof DomainError) return error.code;
    throw error;
  }
  return 'nothing refused';
}

describe('deposits', () => {
  it('a quarter of 1,084.68 is 271.17', () => {
    expect(depositFor(minor(108_468), 250_000 as Ppm)).toBe(27_117);
  });

  it('deducted by negative lines, the tax of deposit and final invoice is the tax of the job, to one unit', () => {
    const deposit = totalsOf(prepaymentBill(minor(27_117), 'Deposit', VAT20));
    const final = deductedTotals(work(false), totalsOf(work(false)), [
      { what: 'deposit', text: 'Deposit', tax: VAT20, totals: deposit },
    ]);
    expect(deposit.toPayMinor + final.toPayMinor).toBe(108_468);
    expect(Math.abs(deposit.taxMinor + final.taxMinor - 18_078)).toBeLessThanOrEqual(1);
  });

  it('whatever the price and the deposit, both documents together ask for the price and tax it once', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5_000_000 }),
        fc.integer({ min: 0, max: 1_000_000 }),
        fc.constantFrom(0, 70_000, 88_750, 190_000, 200_000, 250_000),
        fc.boolean(),
        (price, share, ratePpm, taxIncluded) => {
          const tax: LineTax = { ...VAT20, category: ratePpm === 0 ? 'Z' : 'S', ratePpm };
          const bill: Bill = {
            lines: [agreedLine('labour.cut', 'Cut', 60, minor(price), tax)],
            extras: [],
            taxIncluded,
          };
          const whole = totalsOf(bill);
          const part = totalsOf(prepaymentBill(depositFor(whole.toPayMinor, share as Ppm), 'Deposit', tax));
          const final = deductedTotals(bill, whole, [
            { what: 'deposit', text: 'Deposit', tax, totals: part },
          ]);
          expect(part.toPayMinor + final.toPayMinor).toBe(whole.toPayMinor);
          expect(Math.abs(part.taxMinor + final.taxMinor - whole.taxMinor)).toBeLessThanOrEqual(2);
        },
      ),
    );
  });
});

describe('money against what is owed', () => {
  it('is laid on documents in order until it is used up', () => {
    const plan = layMoney(
      minor(150),
      [
        { id: 'a', owedMinor: minor(100) },
        { id: 'b', owedMinor: minor(80) },
      ],
      null,
    );
    expect(plan.parts).toEqual([
      { id: 'a', amountMinor: 100 },
      { id: 'b', amountMinor: 50 },
    ]);
    expect(plan.surplusMinor).toBe(0);
  });

  it('above what is owed is refused until somebody says what it is', () => {
    const owed = [{ id: 'a', owedMinor: minor(100) }];
    expect(codeOf(() => layMoney(minor(101), owed, null))).toBe('MONEY_ABOVE_OWED');
    expect(layMoney(minor(101), owed, 'tip')).toMatchObject({ surplusMinor: 1, surplus: 'tip' });
  });

  it('takes nothing for a document that the shop itself owes on', () => {
    expect(layMoney(minor(10), [{ id: 'a', owedMinor: minor(-50) }], 'credit').parts).toEqual([]);
  });

  it('counts credit notes and refunds', () => {
    // 100 asked, credited 40, paid 100, refunded 40
    expect(owedOn(minor(100), [-40], [100])).toBe(-40);
    expect(owedOn(minor(100), [-40], [100, -40])).toBe(0);
  });

  it('a refund above what was paid is refused', () => {
    expect(codeOf(() => checkRefund(minor(41), minor(40)))).toBe('REFUND_ABOVE_PAID');
    expect(codeOf(() => checkRefund(minor(40), minor(40)))).toBe('nothing refused');
  });

  it('ageing parts sum to what is owed and leave out what the shop owes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ owedMinor: fc.integer({ min: -5000, max: 5000 }), overdueDays: fc.nat(400) })),
        (rows) => {
          const a = ageingOf(rows);
          expect(a.notDueMinor + a.upTo30Minor + a.upTo60Minor + a.upTo90Minor + a.olderMinor).toBe(
            a.owedMinor,
          );
          expect(a.owedMinor).toBe(sum(rows.map((r) => Math.max(0, r.owedMinor))));
        },
      ),
    );
  });

  it('is overdue from the day after the due day', () => {
    expect(overdueDays(day('2026-11-25'), day('2026-11-25'), 100)).toBe(0);
    expect(overdueDays(day('2026-11-25'), day('2026-11-26'), 100)).toBe(1);
    expect(overdueDays(day('2026-11-25'), day('2026-12-26'), 0)).toBe(0);
  });

  it('reminders come level by level', () => {
    const sent = (level: number, daysAgo: number) => ({ level, daysAgo });
    expect(reminderLevel(6, [7, 14, 30], sent(0, 0))).toBe(0);
    expect(reminderLevel(40, [7, 14, 30], sent(0, 0))).toBe(1);
    expect(reminderLevel(40, [7, 14, 30], sent(2, 26))).toBe(3);
    expect(reminderLevel(40, [7, 14, 30], sent(3, 10))).toBe(0);
  });

  it('the next reminder waits as long after a late one as the shop’s days lie apart', () => {
    // 62 days late and only reminded today: the second is a week after the first, the third 16 days after that.
    const level = (overdue: number, level: number, daysAgo: number) =>
      reminderLevel(overdue, [7, 14, 30], { level, daysAgo });
    expect([level(62, 1, 0), level(68, 1, 6), level(69, 1, 7)]).toEqual([0, 0, 2]);
    expect([level(84, 2, 15), level(85, 2, 16)]).toEqual([0, 3]);
  });
});

describe('credit notes', () => {
  it('give back an amount of a line, not more', () => {
    const credit = partOf(work(false), [{ line: 0, amountMinor: minor(10_000) }]);
    expect(totalsOf(credit)).toMatchObject({ netMinor: -10_000, taxMinor: -2000, toPayMinor: -12_000 });
    expect(codeOf(() => partOf(work(false), [{ line: 0, amountMinor: minor(90_391) }]))).toBe(
      'CREDIT_ABOVE_LINE',
    );
    expect(codeOf(() => partOf(work(false), []))).toBe('NOTHING_TO_CREDIT');
  });

  it('together never take more than the document asked for', () => {
    expect(codeOf(() => checkCredit(minor(100), minor(-60), minor(-41)))).toBe('CREDIT_ABOVE_INVOICE');
    expect(codeOf(() => checkCredit(minor(100), minor(-60), minor(-40)))).toBe('nothing refused');
  });
});

describe('numbers and dates of documents', () => {
  it('a date before the last document is refused, or takes that document’s day', () => {
    expect(codeOf(() => issueDay(day('2026-11-24'), day('2026-11-25'), 'ask'))).toBe('ISSUE_DATE_BEHIND');
    expect(codeOf(() => issueDay(day('2026-11-24'), day('2026-11-25'), 'today'))).toBe('ISSUE_DATE_BEHIND');
    expect(issueDay(day('2026-11-24'), day('2026-11-25'), 'lastDay')).toBe('2026-11-25');
  });

  it('more than seven days after the last is asked, seven are not', () => {
    expect(issueDay(day('2026-12-02'), day('2026-11-25'), 'ask')).toBe('2026-12-02');
    expect(codeOf(() => issueDay(day('2026-12-03'), day('2026-11-25'), 'ask'))).toBe('ISSUE_DATE_AHEAD');
    expect(issueDay(day('2026-12-03'), day('2026-11-25'), 'today')).toBe('2026-12-03');
  });

  it('follow the last one in the file or on paper, and wait after a restore', () => {
    expect(nextDocumentNumber(41, 0, false)).toBe(42);
    expect(nextDocumentNumber(41, 45, false)).toBe(46);
    expect(codeOf(() => nextDocumentNumber(41, 0, true))).toBe('NUMBER_TO_CONFIRM');
    expect(
      codeOf(() => confirmedLast({ lastNumber: 41, lastOnPaper: 0, ask: true, hasGaps: false }, 40)),
    ).toBe('PAPER_NUMBER_TOO_LOW');
  });
});

describe('work billed by what was done', () => {
  const agreed = [
    { kind: 'wash' as const, minutes: 120, amountMinor: minor(17_000) },
    { kind: 'cut' as const, minutes: 180, amountMinor: minor(25_500) },
    { kind: 'refine' as const, minutes: 150, amountMinor: minor(21_250) },
  ];
  const done = [
    { kind: 'wash' as const, workedMin: 130, donePpm: 1_000_000 as Ppm },
    { kind: 'cut' as const, workedMin: 100, donePpm: 500_000 as Ppm },
    { kind: 'refine' as const, workedMin: 0, donePpm: 0 as Ppm },
  ];

  it('stopped half way: the done share of each agreed stage, materials in proportion', () => {
    const lines = halfWayLines(agreed, done, minor(10_000), VAT20, name);
    // 170.00 + 127.50; materials 100.00 × 297.50 / 637.50 = 46.67 (by hand)
    expect(lines.map((l) => [l.what, l.priceMinor])).toEqual([
      ['labour.prepare', 17_000],
      ['labour.cut', 12_750],
      ['materials', 4667],
    ]);
  });

  it('finds a stage by its kind when the plan changed on the way, and leaves out one that was dropped', () => {
    const dropped = { kind: 'cut' as const, workedMin: 0, donePpm: 0 as Ppm };
    const mask = { kind: 'mask' as const, workedMin: 30, donePpm: 1_000_000 as Ppm };
    expect(sharesOf(agreed, [dropped, mask, ...done])).toEqual([1_000_000, 500_000, 0]);
  });

  it('by time: minutes really taken at the hour’s price', () => {
    const lines = timedLines(done, testRates(8500), minor(0), VAT20, name);
    // 130 min × 85.00 = 184.17, 100 min × 85.00 = 141.67
    expect(totalsOf({ lines, extras: [], taxIncluded: false }).lineNetMinor).toEqual([18_417, 14_167]);
  });

  it('not above means the lower of both; fixed stays fixed; stopped is by what was done, or by time if so agreed', () => {
    expect(basisOfBill('notAbove', false, minor(100), minor(90))).toBe('timed');
    expect(basisOfBill('notAbove', false, minor(100), minor(120))).toBe('agreed');
    expect(basisOfBill('fixed', false, minor(100), minor(90))).toBe('agreed');
    expect(basisOfBill('byTime', false, minor(100), minor(120))).toBe('timed');
    expect(basisOfBill('fixed', true, minor(100), minor(90))).toBe('halfWay');
    expect(basisOfBill('byTime', true, minor(100), minor(90))).toBe('timed');
  });
});

describe('a cancelled job’s deposit', () => {
  it('is kept whole when no fee is stated', () => {
    expect(settle(minor(200), 'kept', null)).toEqual({
      feeMinor: 200,
      coveredMinor: 200,
      returnMinor: 0,
      moveMinor: 0,
    });
  });
  it('goes back above the fee, or moves to another job', () => {
    expect(settle(minor(200), 'returned', minor(50))).toMatchObject({ coveredMinor: 50, returnMinor: 150 });
    expect(settle(minor(200), 'moved', null)).toMatchObject({ feeMinor: 0, moveMinor: 200, returnMinor: 0 });
  });
  it('a fee above the deposit leaves the rest to pay', () => {
    expect(settle(minor(200), 'kept', minor(260))).toMatchObject({
      feeMinor: 260,
      coveredMinor: 200,
      returnMinor: 0,
    });
  });
  it('without deposit and fee there is nothing to settle', () => {
    expect(codeOf(() => settle(minor(0), 'kept', null))).toBe('NO_DEPOSIT_HELD');
  });
});
