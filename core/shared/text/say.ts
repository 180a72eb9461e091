import { IntlMessageFormat } from 'intl-messageformat';
import { en, type TextKey } from './en.ts';
import { enUS } from './enUS.ts';
import type { PaperKey } from './paperKeys.ts';

/**
 * Languages the program speaks, each in its plainest form first. A further one is a file beside en.ts with the same
 * keys; a region that says single words otherwise is a file with those alone.
 */
export const LOCALES = ['en', 'en-US'] as const;
export type Locale = (typeof LOCALES)[number];

/** Languages that only papers for customers are written in; their texts come with papers.ts, never to the screens. */
export type OtherLocale = 'de' | 'fr' | 'es';
/** A language of papers for customers. */
export type PaperLocale = Locale | OtherLocale;

/**
 * The program's language for a shop's or a customer's BCP 47 tag: the words of its region where they differ, English
 * where a language is not spoken yet.
 * @example localeFor('en-AT') //=> 'en'
 * @example localeFor('es-US') //=> 'en-US'
 */
export function localeFor(tag: string): Locale {
  return /-US\b/.test(tag) ? 'en-US' : 'en';
}
export type TextValues = Readonly<Record<string, string | number | boolean>>;

const texts: Record<Locale, Readonly<Record<TextKey, string>>> &
  Partial<Record<OtherLocale, Readonly<Record<PaperKey, string>>>> = {
  en,
  'en-US': { ...en, ...enUS },
};
const ready = new Map<string, IntlMessageFormat>();

/** Makes a language of papers known. */
export function learn(locale: OtherLocale, said: Readonly<Record<PaperKey, string>>): void {
  texts[locale] = said;
}

/**
 * The text of a key with its values filled in (ICU MessageFormat). Parsed once per language and key. What only screens
 * say does not compile in a language of papers.
 * A value the text asks for and does not get is a bug and throws, and so is a language that is not loaded.
 */
export function say(locale: Locale, key: TextKey, values?: TextValues): string;
export function say(locale: PaperLocale, key: PaperKey, values?: TextValues): string;
export function say(locale: PaperLocale, key: TextKey, values: TextValues = {}): string {
  const known: Readonly<Partial<Record<TextKey, string>>> | undefined = texts[locale];
  const text = known?.[key];
  if (text === undefined) throw new Error(`${locale} has no text ${key}`);
  if (!text.includes('{') && !text.includes("'")) return text;
  const at = `${locale}/${key}`;
  let message = ready.get(at);
  if (!message) {
    message = new IntlMessageFormat(text, locale, undefined, { ignoreTag: true });
    ready.set(at, message);
  }
  return String(message.format({ ...values }));
}

/** True when the key has a text. */
export function isTextKey(key: string): key is TextKey {
  return Object.hasOwn(en, key);
}
