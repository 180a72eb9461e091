import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { partsOf } from '../../../renderer/features/stock/looks.ts';

const said = (key: string, values: Parameters<typeof partsOf>[1]['values']): string =>
  partsOf(PLAIN_MANNER, { key, values })
    .map((part) => (part.figure ? `[${part.text}]` : part.text))
    .join('');

describe('why so much is ordered', () => {
  it('is said with its figures, in singular and plural', () => {
    expect(said('stock.say.lot', { need: 1, packs: 35, weeks: 1 })).toBe(
      '[1] is needed at once; [35] at a time cost least, ordering and keeping together, and last about a week.',
    );
    expect(said('stock.say.lot', { need: 0, packs: 6, weeks: 13 })).toMatch(
      /^None is needed at once; .*about \[13\] weeks\.$/,
    );
    expect(said('stock.say.needOnly', { days: 14, usedDays: 1, cover: 14 })).toMatch(
      /^Use is known from \[1\] day in \[14\]: too little/,
    );
  });
});
