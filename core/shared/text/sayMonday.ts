import type { MondaySentence, MondayValue } from '../views/monday.ts';
import { hours, money, percent } from './format.ts';
import { amountText, type Manner } from './manner.ts';
import { isTextKey, say } from './say.ts';
import { clock, dayOf, dayText } from './when.ts';

/** A sentence of the Monday page in the shop's words and units, for screen and paper. A key without a text is a bug and throws. */
export function sayMonday(manner: Manner, sentence: MondaySentence): string {
  const key = `monday.${sentence.key}`;
  if (!isTextKey(key)) throw new Error(`no text ${key}`);
  const values = Object.entries(sentence.values).map(([name, value]) => [name, written(manner, value)]);
  return say(manner.locale, key, Object.fromEntries(values));
}

/** A figure and its unit stay on one line, on the screen and on the page. */
function unbroken(amount: string): string {
  return amount.replace(' ', '\u00a0');
}

function written(manner: Manner, value: MondayValue): string | number {
  if (typeof value !== 'object') return value;
  switch (value.is) {
    case 'money':
      return money(manner, value.minor);
    case 'day':
      return dayText(manner, value.day);
    case 'dayTime':
      // With the date: a weekday alone is read as the nearest one, and the page is printed to be read later.
      return `${dayOf(manner, value.atMin * 60_000)} ${clock(manner, value.atMin * 60_000)}`;
    case 'hours':
      return unbroken(amountText(hours(manner, value.minutes)));
    case 'share':
      return unbroken(amountText(percent(manner, value.ppm / 1_000_000)));
    case 'stage':
      return say(manner.locale, `word.stage.${value.stage}`);
  }
}
