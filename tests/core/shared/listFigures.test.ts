import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DecimalSign, decimalSignOf, plainFigure } from '#core/shared/listFigures.ts';
import { baseAmount } from '#core/shared/stockList.ts';

const read = (figures: readonly string[], delimiter: string) => {
  const sign = decimalSignOf(figures, delimiter);
  return figures.map((figure) => plainFigure(figure, sign));
};

/** An amount in thousandths as a spreadsheet of a region writes it, with or without marks of thousands. */
function written(thousandths: number, sign: DecimalSign, marks: boolean): string {
  const whole = String(Math.floor(thousandths / 1000));
  const rest = String(thousandths % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  const other = sign === ',' ? '.' : ',';
  const grouped = marks ? whole.replace(/\B(?=(\d{3})+$)/g, other) : whole;
  return rest === '' ? grouped : `${grouped}${sign}${rest}`;
}

const amount = fc.record({ thousandths: fc.nat(999_999_999), marks: fc.boolean() });
const signs = fc.constantFrom<DecimalSign>('.', ',');
const delimiters = fc.constantFrom(',', ';', '\t');

describe('figures of a list', () => {
  it('reads what one way of writing wrote, or asks: never another amount, once one figure shows its decimals', () => {
    fc.assert(
      fc.property(fc.array(amount), signs, delimiters, (amounts, sign, delimiter) => {
        const sure = { thousandths: 25_600_500, marks: false };
        const all = [...amounts, sure];
        const figures = all.map((a) => written(a.thousandths, sign, a.marks));
        const got = read(figures, delimiter).map((f) => ('plain' in f ? baseAmount(f.plain, 'ul') : null));
        expect(got).toEqual(all.map((a) => a.thousandths));
      }),
    );
  });
  it('never reads a figure of two meanings in a list split by semicolons where nothing tells', () => {
    const whole = fc.integer({ min: 1, max: 999 });
    const digits = fc.integer({ min: 0, max: 999 }).map((n) => String(n).padStart(3, '0'));
    fc.assert(
      fc.property(whole, digits, fc.array(fc.nat().map(String)), (before, behind, others) => {
        const [first] = read([`${before}.${behind}`, ...others], ';');
        const said = first && 'twoWays' in first ? first.twoWays.split(' / ') : [];
        const again = said.map((text) => plainFigure(text, null));
        expect(again.map((f) => ('plain' in f ? Number(f.plain) : null))).toEqual([
          Number(`${before}${behind}`),
          Number(`${before}.${behind}`),
        ]);
      }),
    );
  });
  it('goes by the delimiter where only its usual sign is there, and by nothing where figures disagree', () => {
    expect(read(['31.200'], ',')).toEqual([{ plain: '31.200' }]);
    expect(read(['31,200'], ';')).toEqual([{ plain: '31.200' }]);
    expect(read(['31.200', '2,5', '2.5'], ';')).toEqual([
      { twoWays: '31200 / 31.2' },
      { plain: '2.5' },
      { plain: '2.5' },
    ]);
    expect(read(['31,234'], ',')).toEqual([{ twoWays: '31234 / 31,2340' }]);
  });
  it('leaves what is no figure as it is', () => {
    expect(read(['', '-4', '1.2.3', '12 g'], ';')).toEqual(
      ['', '-4', '1.2.3', '12 g'].map((plain) => ({ plain })),
    );
  });
});
