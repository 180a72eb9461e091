import { describe, expect, it } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { type Manner, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say } from '#core/shared/text/say.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { ConflictView } from '#core/shared/views/bays.ts';
import type { Say } from '../../renderer/bridge/texts.tsx';
import { besides, conflictSentence } from '../../renderer/features/bays/sentence.ts';

const vienna: Manner = { ...PLAIN_MANNER, zone: 'Europe/Vienna' };
const t: Say = (key, values) => say('en', key, values);

const NOW = Date.parse('2026-11-27T12:00:00+01:00');

function at(kind: ConflictView['kind'], local: string): ConflictView {
  return {
    ...{
      key: kind,
      kind,
      jobId: 'j' as JobId,
      otherJobId: null,
      bayId: null,
      minutes: 0,
      acknowledged: false,
    },
    atMin: (Date.parse(local) / 60_000) as EpochMin,
    words: { who: 'Lena Tarn', item: 'Wash mitt', needs: 4, has: 2, help: 'wash' },
  };
}

describe('what happened against the plan, in words', () => {
  it('says the date on which pads are short, which is known to the day, and no hour', () => {
    const said = conflictSentence(t, vienna, at('padsMissing', '2026-12-08T00:00:00+01:00'), NOW);
    expect(said).toMatch(/^Lena Tarn, Tue 8 Dec: 4 clean Wash mitt needed/);
  });

  it('says the day and the hour at which a car was due', () => {
    const said = conflictSentence(t, vienna, at('lateArrival', '2026-11-28T10:00:00+01:00'), NOW);
    expect(said).toBe('Lena Tarn was due Sat 10:00 and is not here.');
  });

  it('says of a car that has not come by whom its place is taken meanwhile', () => {
    const late = at('lateArrival', '2026-11-28T10:00:00+01:00');
    const broken = at('planBroken', '2026-11-28T10:30:00+01:00');
    const untilMin = Date.parse('2026-11-28T13:15:00+01:00') / 60_000;
    const words = { ...broken.words, rule: 'bayTaken', bay: 'Bay 2', other: 'Marit Vane', untilMin };
    const said = (b: ConflictView, happened = late) => besides(t, vienna, happened, b, NOW);
    expect(said({ ...broken, words })).toBe(
      'Bay 2, where that car was to be, is taken by Marit Vane until Sat 13:15.',
    );
    expect(said({ ...broken, words: { ...words, rule: 'stageOrder' } })).toBe(
      'What comes after it can’t be worked as planned.',
    );
    expect(said({ ...broken, words }, at('overrun', '2026-11-28T10:00:00+01:00'))).toBe(
      'What comes after it can’t be worked as planned.',
    );
  });
});
