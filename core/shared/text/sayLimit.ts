import type { LimitView } from '../views/estimate.ts';
import type { BodyStyle } from '../vocabulary.ts';
import { type Locale, say } from './say.ts';
import { panelName } from './sayError.ts';

/** The sentence of one limit, as it stands on the screen and on the quote. */
export function sayLimit(locale: Locale, limit: LimitView, body?: BodyStyle): string {
  const panel = limit.panel === null ? '' : panelName(locale, limit.panel, body);
  const defect = limit.defect === null ? '' : say(locale, `word.defect.${limit.defect}`);
  const sentence = say(locale, `limit.${limit.key}`, {
    person: '',
    reason: '',
    ...limit.data,
    panel,
    defect,
  });
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
