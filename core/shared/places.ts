import { data as iso4217 } from 'currency-codes';
import { COUNTRY_EXAMPLES } from './examples.ts';

/** Codes that the language data names though they are no country: unions, private use, islands of another's code. */
const NO_COUNTRY = new Set([
  'AC',
  'CP',
  'CQ',
  'DG',
  'EA',
  'EU',
  'EZ',
  'IC',
  'QO',
  'TA',
  'UN',
  'XA',
  'XB',
  'ZZ',
]);
const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

const known = new Map<string, readonly Named[]>();

export type Named = { readonly code: string; readonly name: string };

/**
 * Every country by its name in a language, in its order of letters. From the language data of the runtime (Unicode
 * CLDR): the two-letter codes that are canonical and have a name.
 */
export function countries(language: string): readonly Named[] {
  const before = known.get(language);
  if (before) return before;
  const names = new Intl.DisplayNames([language], { type: 'region', fallback: 'none' });
  const codes = LETTERS.flatMap((a) => LETTERS.map((b) => a + b)).filter(
    (code) => !NO_COUNTRY.has(code) && Intl.getCanonicalLocales(`und-${code}`)[0] === `und-${code}`,
  );
  const found = named(codes, language, (code) => names.of(code));
  known.set(language, found);
  return found;
}

/** A country's name in a language; its code where it has none. */
export function countryName(language: string, code: string): string {
  return countries(language).find((country) => country.code === code)?.name ?? code;
}

/** Every currency in use by its name, in the language's order of letters. @source ISO 4217 (library currency-codes) */
export function currencies(language: string): readonly Named[] {
  const names = new Intl.DisplayNames([language], { type: 'currency', fallback: 'none' });
  const codes = iso4217.map((row) => row.code);
  return named(codes, language, (code) => names.of(code));
}

function named(
  codes: readonly string[],
  language: string,
  nameOf: (code: string) => string | undefined,
): readonly Named[] {
  const { compare } = new Intl.Collator(language);
  return codes
    .flatMap((code) => {
      const name = nameOf(code);
      return name === undefined ? [] : [{ code, name }];
    })
    .toSorted((a, b) => compare(a.name, b.name));
}

/** Ways of writing to choose from: the program's language as each example country writes, a country's own, the present. */
export function writingTags(locale: string, country: string, present: string): readonly string[] {
  const { language } = new Intl.Locale(locale);
  const own = /^[A-Z]{2}$/.test(country) ? [`${language}-${country}`] : [];
  return [...new Set([present, ...own, ...COUNTRY_EXAMPLES.map((example) => example.locale)])];
}
