import { amountOf, count, money } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { isTextKey, say } from '#core/shared/text/say.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { Sentence, SentenceValue } from '#core/shared/views/stockSentence.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';

/** A value of a sentence in the shop's units and language. */
export function valueText(manner: Manner, value: SentenceValue): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return count(manner, value, Number.isInteger(value) ? 0 : 1);
  switch (value.is) {
    case 'amount':
      return amountText(amountOf(manner, value.unit, value.amount));
    case 'packs':
      return packsText(manner, value.packs, value.packSize, value.unit);
    case 'day':
      return dayText(manner, value.day);
    case 'money':
      return money(manner, value.minor);
  }
}

/** `3 × 1,000 ml`; single pieces only their number. */
export function packsText(manner: Manner, packs: number, packSize: number, unit: BaseUnit): string {
  if (unit === 'piece' && packSize === 1) return count(manner, packs);
  return `${count(manner, packs)} × ${amountText(amountOf(manner, unit, packSize))}`;
}

/** Marks that no text contains: where a figure starts and ends. */
const START = '\u0002';
const END = '\u0003';

export type Part = { readonly text: string; readonly figure: boolean };

/** A sentence cut into words and figures, so that the figures can be set strong. */
export function partsOf(manner: Manner, sentence: Sentence): readonly Part[] {
  if (!isTextKey(sentence.key)) return [{ text: sentence.key, figure: false }];
  const values: Record<string, string | number> = {};
  for (const [name, value] of Object.entries(sentence.values)) {
    const text = valueText(manner, value);
    values[name] = typeof value === 'string' ? text : `${START}${text}${END}`;
    // The marked text is no number any more: plurals are chosen by this one.
    if (typeof value === 'number') values[`${name}Count`] = value;
  }
  return say(manner.locale, sentence.key, values)
    .split(START)
    .flatMap((chunk, i) => {
      if (i === 0) return [{ text: chunk, figure: false }];
      const [figure = '', rest = ''] = chunk.split(END);
      return [
        { text: figure, figure: true },
        { text: rest, figure: false },
      ];
    })
    .filter((part) => part.text !== '');
}
