import type { PlainError } from '../core/shared/errors.ts';
import type { TextKey } from '../core/shared/text/en.ts';
import { localeFor, say, type TextValues } from '../core/shared/text/say.ts';
import { sayError } from '../core/shared/text/sayError.ts';
import { sayFinding } from '../core/shared/text/sayFinding.ts';

/** The system's language where the program speaks it, else the one it has. */
const LOCALE = localeFor(Intl.DateTimeFormat().resolvedOptions().locale);

/** What the shells say before a page or a shop is there: in a terminal, a menu, a dialog. */
export function tell(key: TextKey, values: TextValues = {}): string {
  return say(LOCALE, key, values);
}

/** The sentence of a refusal. */
export function tellError(error: PlainError): string {
  return sayError(LOCALE, error);
}

/** The sentence of what the doctor found. */
export function tellFinding(check: string, values: Readonly<Record<string, string | number>>): string {
  return sayFinding(LOCALE, check, values);
}
