import { de } from './de.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';
import { mannerFor, type PaperManner } from './manner.ts';
import { learn, localeFor, type OtherLocale, type PaperLocale } from './say.ts';

/**
 * The languages of papers for customers. Only the core's workers load this file: it is the one place where such a
 * language comes from, so its texts are there wherever one is spoken, and the screens never carry them.
 */
const OTHERS = { de, fr, es } as const;
for (const locale of Object.keys(OTHERS) as OtherLocale[]) learn(locale, OTHERS[locale]);

/**
 * The language of papers for a BCP 47 tag; English where it is another.
 * @example paperLocale('de-AT') //=> 'de'
 * @example paperLocale('en-US') //=> 'en-US'
 */
export function paperLocale(tag: string): PaperLocale {
  const { language } = new Intl.Locale(tag);
  return Object.hasOwn(OTHERS, language) ? (language as OtherLocale) : localeFor(tag);
}

/** How papers are written whose `locale` is the tag they were begun in. */
export function paperManner(shop: Parameters<typeof mannerFor>[0]): PaperManner {
  return { ...mannerFor(shop), locale: paperLocale(shop.locale) };
}
