/** Languages that papers for customers are written in. The program's own screens speak those of text/say.ts. */
export const PAPER_LANGUAGES = ['en', 'de', 'fr', 'es'] as const;
export type PaperLanguage = (typeof PAPER_LANGUAGES)[number];

/** How a shop writes, as far as its papers take it over. */
type Writing = { readonly locale: string; readonly country: string };

/**
 * The BCP 47 tag of papers in a language: the shop's own where it is that language, else the language as it is written
 * in the shop's country, which decides dates and figures.
 * @example paperTag({ locale: 'en-GB', country: 'AT' }, 'de') //=> 'de-AT'
 */
export function paperTag({ locale, country }: Writing, language: PaperLanguage): string {
  const own = new Intl.Locale(locale);
  if (own.language === language) return locale;
  const region = country || own.region;
  return region ? `${language}-${region}` : language;
}
