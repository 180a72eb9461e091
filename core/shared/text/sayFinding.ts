import { PLAIN_MANNER } from './manner.ts';
import { isTextKey, type Locale, say } from './say.ts';
import { sayable } from './sayError.ts';

/** What a check of the shop file found, as a sentence; its values are said as those of a refusal are. */
export function sayFinding(
  locale: Locale,
  check: string,
  values: Readonly<Record<string, string | number>>,
): string {
  const key = `doctor.${check}`;
  const said = Object.entries(values).map(([field, value]) => [
    field,
    sayable(locale, field, value, PLAIN_MANNER),
  ]);
  return isTextKey(key) ? say(locale, key, Object.fromEntries(said)) : check;
}
