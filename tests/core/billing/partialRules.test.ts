import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partOf, partTotals, turned, turnedTotals } from '#core/billing/rules/credit.ts';
import { beforeTaken, deductedTotals, deducting, prepaymentBill } from '#core/billing/rules/deposit.ts';
import { amountsOf, billedParts, doneOfLines, partialBill } from '#core/billing/rules/partial.ts';
import { creditsForAbove } from '#core/billing/rules/partialCredits.ts';
import { takenByTax } from '#core/billing/rules/partialOff.ts';
import { partialAmounts } from '#core/billing/rules/partialTax.ts';
import { agreedLine } from '#core/billing/rules/quoteLines.ts';
import { splitBill } from '#core/billing/rules/split.ts';
import { lineAmount, sum, totalsOf } from '#core/billing/rules/totals.ts';
import type { Bill, BillTotals, LineKind, LineTax } from '#core/shared/bill.ts';
import { type TaxPart, wholeRatePpm } from '#core/shared/tax.ts';
import { type Minor, PPM, type Ppm } from '#core/shared/units.ts';

const tax = (ratePpm: number): LineTax => ({
  ...{ code: 'standard', name: 'VAT', reason: '', ratePpm },
  category: ratePpm === 0 ? 'Z' : 'S',
});
const stacked = (parts: readonly TaxPart[]): LineTax => ({
  ...{ code: 'standard', category: 'S', name: 'Sales tax', reason: '' },
  ...{ ratePpm: wholeRatePpm(parts), parts: [...parts] },
});
const STATE: TaxPart = { name: 'State', ratePpm: 40_000, onTax: false };
const ALONE: readonly LineTax[] = [0, 70_000, 190_000, 200_000, 88_750].map(tax);
const TOGETHER: readonly LineTax[] = [
  stacked([STATE, { name: 'City', ratePpm: 45_000, onTax: false }]),
  stacked([STATE, { name: 'Province', ratePpm: 95_000, onTax: true }]),
];
const line = (what: LineKind, amount: number, of = tax(190_000)) =>
  agreedLine(what, what, 0, amount as Minor, of);

const anyBill = (taxes: readonly LineTax[]) =>
  fc
    .record({
      taxes: fc.uniqueArray(fc.constantFrom(...taxes), { minLength: 1, maxLength: 2 }),
      lines: fc.array(fc.integer({ min: 500, max: 400_000 }), { minLength: 2, maxLength: 6 }),
      extra: fc.integer({ min: -20_000, max: 20_000 }),
      taxIncluded: fc.boolean(),
    })
    .map(({ taxes, lines, extra, taxIncluded }): Bill => {
      const at = (i: number): LineTax => taxes[i % taxes.length] as LineTax;
      const amountMinor = Math.max(extra, -Math.floor((lines[0] ?? 0) / 2));
      const extras = amountMinor === 0 ? [] : [{ text: 'on the whole', amountMinor, tax: at(0) }];
      return { lines: lines.map((amount, i) => line('labour.cut', amount, at(i))), extras, taxIncluded };
    });

type Doc = { readonly bill: Bill; readonly totals: BillTotals };
const shareArb = fc.oneof(fc.constantFrom(0, PPM), fc.integer({ min: 0, max: PPM }));

/** Bills parts of a bill one after the other, each up to shares of its lines; a partial that bills nothing is left out. */
function billParts(bill: Bill, rounds: readonly (readonly number[])[]): Doc[] {
  const whole = amountsOf(bill);
  const billed = whole.map(() => 0);
  return rounds.flatMap((shares): Doc[] => {
    const upTo = bill.lines.map((_, i) => (shares[i % shares.length] ?? 0) as Ppm);
    const part = partialBill(bill, partialAmounts(bill, billed as Minor[], upTo), () => 'part');
    const totals = totalsOf(part);
    if (part.lines.length === 0 || totals.toPayMinor <= 0) return [];
    for (const { part: at, amountMinor } of billedParts(part)) billed[at] = (billed[at] ?? 0) + amountMinor;
    whole.forEach((amount, i) => {
      expect(Math.abs(billed[i] ?? 0)).toBeLessThanOrEqual(Math.abs(amount));
    });
    return [{ bill: part, totals }];
  });
}

const finalOf = (bill: Bill, parts: readonly (readonly Doc[])[]): BillTotals =>
  deductedTotals(
    bill,
    totalsOf(bill),
    parts.flatMap((documents) => takenByTax('billed', documents)),
  );

function taxesOf(documents: readonly BillTotals[]): Record<string, number> {
  const sums: Record<string, number> = {};
  for (const { taxes } of documents)
    for (const t of taxes) {
      const key = `${t.name}/${t.ratePpm}`;
      sums[key] = (sums[key] ?? 0) + t.taxMinor;
    }
  return sums;
}

const rounds = fc.array(fc.array(shareArb, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 3 });

/** Every document of a job that is billed in parts. */
function allOf(bill: Bill, how: readonly (readonly number[])[]): BillTotals[] {
  const parts = billParts(bill, how);
  const all = [
    ...parts.map((p) => p.totals),
    finalOf(
      bill,
      parts.map((part) => [part]),
    ),
  ];
  for (const t of all) expect(t.netMinor + t.taxMinor + t.roundingMinor).toBe(t.toPayMinor);
  expect(sum(all.map((t) => t.toPayMinor))).toBe(totalsOf(bill).toPayMinor);
  return all;
}

describe('partial invoices and the one for the rest', () => {
  it('sum to what was agreed to the cent: to pay, net, and tax by rate', () => {
    fc.assert(
      fc.property(anyBill(ALONE), rounds, (bill, how) => {
        const [all, whole] = [allOf(bill, how), totalsOf(bill)];
        expect(sum(all.map((t) => t.netMinor))).toBe(whole.netMinor);
        expect(taxesOf(all)).toEqual(taxesOf([whole]));
      }),
      { numRuns: 150 },
    );
  });

  it('of several taxes on one sale sum to the cent too, each tax by its name', () => {
    fc.assert(
      fc.property(anyBill(TOGETHER), rounds, (bill, how) => {
        expect(taxesOf(allOf(bill, how))).toEqual(taxesOf([totalsOf(bill)]));
      }),
      { numRuns: 60 },
    );
  });
});

/** Billed in full and then worth next to nothing: the first tax, taken off whole, cannot give what rounding leaves over. */
const TAKEN_OFF_WHOLE: Bill = {
  lines: [line('labour.cut', 500, tax(0)), line('labour.cut', 346_822, tax(70_000))],
  extras: [],
  taxIncluded: false,
};

describe('beside partial invoices', () => {
  it('a prepayment, a split between two payers and a voucher leave the sum as it was', () => {
    fc.assert(
      fc.property(anyBill(ALONE), rounds, fc.integer({ min: 1, max: PPM - 1 }), (bill, how, share) => {
        const whole = totalsOf(bill);
        const parts = billParts(bill, how);
        const taken = parts.flatMap((part) => takenByTax('billed', [part]));
        const restMinor = whole.toPayMinor - sum(parts.map((p) => p.totals.toPayMinor));
        const asked = Math.floor((restMinor * share) / PPM) as Minor;
        fc.pre(asked > 0);
        const deposit = totalsOf(prepaymentBill(asked, 'deposit', bill.lines[0]?.tax as LineTax));
        const before = {
          what: 'deposit',
          text: '',
          tax: bill.lines[0]?.tax as LineTax,
          totals: deposit,
        } as const;
        const after = deductedTotals(bill, whole, [before, ...taken]);
        expect(after.toPayMinor + asked).toBe(restMinor);
        const voucher = { ...before, what: 'voucher' } as const;
        const both = deductedTotals(bill, whole, [before, ...taken, voucher]);
        expect(both.toPayMinor + 2 * asked).toBe(restMinor);
        const two = splitBill(bill, whole, asked, { part: 'part', rest: 'rest' });
        const rest = deductedTotals(two.rest.bill, two.rest.totals, taken);
        expect(rest.toPayMinor + two.part.totals.toPayMinor).toBe(restMinor);
        expect(
          beforeTaken(
            { bill: deducting(two.rest.bill, taken), totals: rest, vouchers: [] },
            sum(parts.map((p) => p.totals.toPayMinor)),
          ),
        ).toEqual(two.rest);
      }),
      { numRuns: 60 },
    );
  });

  it('credit notes release what they give back: the rest asks for it again', () => {
    fc.assert(
      fc.property(
        anyBill(ALONE),
        rounds,
        fc.nat(5),
        fc.integer({ min: 1, max: PPM }),
        (bill, how, at, share) => {
          const parts = billParts(bill, how);
          fc.pre(parts.length > 0);
          const credited = parts[at % parts.length] as Doc;
          const amountMinor = Math.ceil(
            ((lineAmount(credited.bill.lines[0] as never) as number) * share) / PPM,
          );
          const note = partOf(credited.bill, [{ line: 0, amountMinor: amountMinor as Minor }]);
          const totals = partTotals(credited.bill, note, [], credited.totals.toPayMinor);
          const families = parts.map((p) => (p === credited ? [p, { bill: note, totals }] : [p]));
          const all = [...families.flat().map((d) => d.totals), finalOf(bill, families)];
          expect(sum(all.map((t) => t.toPayMinor))).toBe(totalsOf(bill).toPayMinor);
          const released = billedParts(note).map((p) => p.amountMinor);
          expect(sum(released)).toBe(-sum(amountsOf(note).map((a) => -a)));
          const whole = [credited, { bill: turned(credited.bill), totals: turnedTotals(credited.totals) }];
          expect(takenByTax('billed', whole)).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('where the work comes to less than was billed, the credits proposed leave a rest of nothing or more', () => {
    fc.assert(
      fc.property(anyBill(ALONE), rounds, fc.integer({ min: 0, max: 900_000 }), (bill, how, doneShare) => {
        const parts = billParts(bill, how);
        const less: Bill = {
          ...bill,
          extras: [],
          lines: bill.lines.map((l) => ({ ...l, priceMinor: Math.floor((l.priceMinor * doneShare) / PPM) })),
        };
        const above = finalOf(
          less,
          parts.map((part) => [part]),
        ).toPayMinor;
        fc.pre(above < 0);
        const standing = parts.map((part, k) => ({ ...part, id: k, number: k + 1, notes: [] as Doc[] }));
        const credits = creditsForAbove(less, standing, []);
        expect(credits.length).toBeGreaterThan(0);
        const families = standing.map((partial): Doc[] => {
          const credit = credits.find((c) => c.invoiceId === partial.id);
          if (!credit) return [partial];
          const note = partOf(partial.bill, credit.lines);
          return [
            partial,
            { bill: note, totals: partTotals(partial.bill, note, [], partial.totals.toPayMinor) },
          ];
        });
        const last = finalOf(less, families);
        expect(last.toPayMinor).toBeGreaterThanOrEqual(0);
        const all = [...families.flat().map((d) => d.totals), last];
        expect(sum(all.map((t) => t.toPayMinor))).toBe(totalsOf(less).toPayMinor);
      }),
      { numRuns: 60, examples: [[TAKEN_OFF_WHOLE, [[PPM], [0]], 3]] },
    );
  });
});

it('what is done of a line follows its own stages, of material and charges all labour together', () => {
  const agreed = [
    { kind: 'wash', minutes: 60, amountMinor: 10_000 as Minor },
    { kind: 'cut', minutes: 180, amountMinor: 30_000 as Minor },
  ] as const;
  const bill: Bill = {
    lines: (['labour.prepare', 'labour.cut', 'materials', 'rush', 'goods'] as const).map((what) =>
      line(what, 1000),
    ),
    extras: [],
    taxIncluded: true,
  };
  const washed = [{ kind: 'wash', workedMin: 55, donePpm: PPM as Ppm }] as const;
  expect(doneOfLines(bill, agreed, washed)).toEqual([PPM, 0, 250_000, 250_000, 0]);
  const all = [...washed, { kind: 'cut', workedMin: 170, donePpm: PPM as Ppm }] as const;
  expect(doneOfLines(bill, agreed, all)).toEqual([PPM, PPM, PPM, PPM, PPM]);
});
