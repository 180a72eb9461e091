import type { VinCheck } from '#core/shared/views/people.ts';
import type { Say } from './texts.tsx';

/** What does not fit in a vehicle number, as a sentence; undefined where all is well. */
export function vinSentence(check: VinCheck | null | undefined, t: Say): string | undefined {
  switch (check?.kind) {
    case undefined:
    case 'none':
    case 'fits':
      return undefined;
    case 'length':
      return t('vin.length', { has: check.has });
    case 'letter':
      return check.should === null
        ? t('vin.letter', { place: check.place, is: check.is })
        : t('vin.misread', { place: check.place, is: check.is, should: check.should });
    case 'checkDigit':
      return t(check.binding ? 'vin.checkDigit' : 'vin.checkDigitLoose', {
        is: check.is,
        should: check.should,
      });
  }
}
