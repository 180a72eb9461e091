import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Laid, partPaid, settlements } from '#core/billing/rules/taxReport.ts';

const ids = ['a', 'b', 'c'] as const;

/** Money on three documents in its order: payments and money back, within a period and outside it. */
const laid = fc
  .array(
    fc.record({
      invoiceId: fc.constantFrom(...ids),
      amountMinor: fc.integer({ min: -90_000, max: 90_000 }).filter((n) => n !== 0),
      within: fc.constantFrom(0 as const, 1 as const),
    }),
    { maxLength: 20 },
  )
  .map((rows): Laid[] => ids.flatMap((id) => rows.filter((r) => r.invoiceId === id)));

/** Of every piece of money its own part, each after all that was laid before. */
function oneByOne(rows: readonly Laid[], id: string, amountMinor: number, toPayMinor: number): number {
  let [before, sum] = [0, 0];
  for (const row of rows.filter((r) => r.invoiceId === id)) {
    if (row.within === 1) sum += partPaid(amountMinor, toPayMinor, before, row.amountMinor);
    before += row.amountMinor;
  }
  return sum;
}

describe('money laid on documents in a period', () => {
  it('has the same part of a document together as payment by payment', () => {
    fc.assert(
      fc.property(
        laid,
        fc.integer({ min: -100_000, max: 100_000 }),
        fc.integer({ min: -200_000, max: 200_000 }),
        (rows, amountMinor, toPayMinor) => {
          const found = settlements(rows);
          for (const id of ids) {
            const together = found
              .filter((s) => s.invoiceId === id)
              .reduce((sum, s) => sum + partPaid(amountMinor, toPayMinor, s.beforeMinor, s.amountMinor), 0);
            expect(together).toBe(oneByOne(rows, id, amountMinor, toPayMinor));
          }
        },
      ),
    );
  });

  it('is one settlement as long as nothing outside the period comes between', () => {
    const on = (invoiceId: string, amountMinor: number, within: 0 | 1): Laid => ({
      invoiceId,
      amountMinor,
      within,
    });
    expect(
      settlements([
        on('a', 10, 0),
        on('a', 20, 1),
        on('a', 30, 1),
        on('a', 5, 0),
        on('a', 7, 1),
        on('b', 9, 1),
      ]),
    ).toEqual([
      { invoiceId: 'a', beforeMinor: 10, amountMinor: 50 },
      { invoiceId: 'a', beforeMinor: 65, amountMinor: 7 },
      { invoiceId: 'b', beforeMinor: 0, amountMinor: 9 },
    ]);
  });
});
