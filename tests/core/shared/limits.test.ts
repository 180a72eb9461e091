import { describe, expect, it } from 'vitest';
import { limitSentences, sharedLimits } from '#core/shared/text/limits.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { LimitView } from '#core/shared/views/estimate.ts';

const unread = (panel: 'bo' | 'ro' | 'lfd'): LimitView => ({
  key: 'notMeasured',
  panel,
  defect: null,
  data: {},
});

describe('what the quote says will not come out', () => {
  it('names all panels of one limit in one sentence', () => {
    expect(limitSentences(PLAIN_MANNER, [unread('bo'), unread('ro'), unread('lfd')], 'saloon')).toEqual([
      'Not read: bonnet, roof and left front door; nothing is promised there.',
    ]);
    expect(limitSentences(PLAIN_MANNER, [unread('bo')])).toEqual([
      'Not read: bonnet; nothing is promised there.',
    ]);
  });

  it('keeps limits apart whose finding differs', () => {
    const softens = (defect: 'swirls' | 'scratches'): LimitView => ({
      key: 'softens',
      panel: 'bo',
      defect,
      data: {},
    });
    expect(limitSentences(PLAIN_MANNER, [softens('swirls'), softens('scratches')])).toHaveLength(2);
  });

  it('names what is left as found once, whatever damage it is', () => {
    const left = (panel: 'bo' | 'ro', defect: 'swirls' | 'etching'): LimitView => ({
      ...{ key: 'leftOut', panel, defect, data: {} },
    });
    expect(limitSentences(PLAIN_MANNER, [left('bo', 'etching'), left('ro', 'swirls')], 'saloon')).toEqual([
      'Left as found: bonnet and roof.',
    ]);
  });

  it('does not say of a thin panel that no machine works on it where one does, on somebody’s word', () => {
    const thin = (data: LimitView['data']): LimitView => ({
      ...{ key: 'thinPanel', panel: 'ro', defect: null, data },
    });
    expect(limitSentences(PLAIN_MANNER, [thin({}), thin({ worked: 1 })], 'saloon')).toEqual([
      'The paint on the roof is thin; no machine works on it.',
      'The paint on the roof is thin; a machine works on it only on the word named here.',
    ]);
  });

  it('says once what holds for both options, and whose it is where it does not', () => {
    const options = [
      { letter: 'A', limits: [unread('bo')] },
      { letter: 'B', limits: [unread('bo'), unread('ro')] },
    ] as const;
    expect(sharedLimits(PLAIN_MANNER, options, 'saloon').map((l) => l.letters)).toEqual([['A'], ['B']]);
    expect(
      sharedLimits(PLAIN_MANNER, [options[0], { ...options[0], letter: 'B' }], 'saloon')[0]?.letters,
    ).toEqual(['A', 'B']);
  });
});
