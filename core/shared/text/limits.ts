import type { LimitView } from '../views/estimate.ts';
import type { BodyStyle } from '../vocabulary.ts';
import { film } from './format.ts';
import { amountText, type Manner } from './manner.ts';
import { isTextKey, say } from './say.ts';
import { panelName } from './sayError.ts';

/** The sentence of one limit, with the panel's and the finding's names and film in the shop's unit. */
export function limitText(manner: Manner, limit: LimitView, body: BodyStyle): string {
  const key = `limit.${limit.key}`;
  const panel = limit.panel ? panelName(manner.locale, limit.panel, body) : '';
  const defect = limit.defect ? say(manner.locale, `word.defect.${limit.defect}`) : '';
  const values: Record<string, string | number> = { panel, defect, person: '', reason: '' };
  for (const [name, value] of Object.entries(limit.data))
    values[name] =
      name.endsWith('TenthUm') && typeof value === 'number' ? amountText(film(manner, value)) : value;
  const text = isTextKey(key) ? say(manner.locale, key, values) : [panel, defect].filter(Boolean).join(': ');
  return text.charAt(0).toLocaleUpperCase(manner.region) + text.slice(1);
}

/** One limit with the options it belongs to, so that what holds for all is said once. */
export type SharedLimit<Letter> = { readonly text: string; readonly letters: readonly Letter[] };

/** Limits of all options, each sentence once, in the order they first appear. */
export function sharedLimits<Letter>(
  manner: Manner,
  options: readonly { readonly letter: Letter; readonly limits: readonly LimitView[] }[],
  body: BodyStyle,
): SharedLimit<Letter>[] {
  const found = new Map<string, Letter[]>();
  for (const option of options)
    for (const limit of option.limits) {
      const text = limitText(manner, limit, body);
      const letters = found.get(text) ?? [];
      if (!letters.includes(option.letter)) letters.push(option.letter);
      found.set(text, letters);
    }
  return [...found].map(([text, letters]) => ({ text, letters }));
}
