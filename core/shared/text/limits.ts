import type { LimitView } from '../views/estimate.ts';
import type { BodyStyle } from '../vocabulary.ts';
import { film, hours, money } from './format.ts';
import { amountText, type PaperManner } from './manner.ts';
import { say } from './say.ts';
import { panelName } from './sayError.ts';

/**
 * What stays, softens or is not known, as sentences for the screen and the quote. Limits that differ only in their
 * panel are one sentence that names them all; film is in the shop's unit.
 */
export function limitSentences(
  manner: PaperManner,
  limits: readonly LimitView[],
  body?: BodyStyle,
): string[] {
  const alike = Map.groupBy(limits, (l) => JSON.stringify([l.key, saidDefect(l), l.data]));
  return [...alike.values()].map((group) => sentence(manner, group, body));
}

/** What was left as it is does not say which damage that was. */
function saidDefect({ key, defect }: LimitView): LimitView['defect'] {
  return key === 'leftOut' ? null : defect;
}

function sentence(manner: PaperManner, group: readonly LimitView[], body: BodyStyle | undefined): string {
  const { locale, region } = manner;
  const [limit] = group;
  if (!limit) return '';
  const names = group.flatMap((l) => (l.panel ? [panelName(locale, l.panel, body)] : []));
  // The region's own comma rules, but never another language's "and".
  const tongue = region.startsWith(locale) ? region : locale;
  const panel = new Intl.ListFormat(tongue, { type: 'conjunction' }).format(names);
  const defect = limit.defect ? say(locale, `word.defect.${limit.defect}`) : '';
  const values: Record<string, string | number> = { panel, defect, person: '', reason: '', worked: '' };
  for (const [name, value] of Object.entries(limit.data))
    values[name] =
      name.endsWith('TenthUm') && typeof value === 'number' ? amountText(film(manner, value)) : value;
  if (typeof limit.data['addedMin'] === 'number')
    values['addedHours'] = hours(manner, limit.data['addedMin']).value;
  if (typeof limit.data['addedMinor'] === 'number')
    values['addedMoney'] = money(manner, limit.data['addedMinor']);
  const text = say(locale, `limit.${limit.key}`, values);
  return text.charAt(0).toLocaleUpperCase(region) + text.slice(1);
}

/** One limit with the options it belongs to, so that what holds for all is said once. */
export type SharedLimit<Letter> = { readonly text: string; readonly letters: readonly Letter[] };

/** Limits of all options, each sentence once, in the order they first appear. */
export function sharedLimits<Letter>(
  manner: PaperManner,
  options: readonly { readonly letter: Letter; readonly limits: readonly LimitView[] }[],
  body: BodyStyle,
): SharedLimit<Letter>[] {
  const found = new Map<string, Letter[]>();
  for (const option of options)
    for (const text of limitSentences(manner, option.limits, body)) {
      const letters = found.get(text) ?? [];
      letters.push(option.letter);
      found.set(text, letters);
    }
  return [...found].map(([text, letters]) => ({ text, letters }));
}
