import { cleanEmail, cleanLine, cleanLines, cleanName } from '../../people/rules/names.ts';
import { refuse } from '../../shared/errors.ts';
import { currencyDigits } from '../../shared/money.ts';
import { isZone } from '../../shared/time.ts';
import type { Shop } from '../../shared/views/shop.ts';

export type ShopDetails = Omit<Shop, 'settings' | 'isDemo' | 'demoDay' | 'revision'>;

/**
 * The shop's details as they are kept: texts cleaned, place and money checked.
 * @throws NAME_MISSING, EMAIL_UNREADABLE, ZONE_UNKNOWN, LOCALE_UNKNOWN, CURRENCY_UNKNOWN
 */
export function cleanDetails(typed: ShopDetails): ShopDetails {
  if (!isZone(typed.zone)) refuse('ZONE_UNKNOWN', { zone: typed.zone });
  currencyDigits(typed.currency);
  return {
    ...typed,
    name: cleanName(typed.name, 'shop'),
    address: cleanLines(typed.address),
    phone: cleanLine(typed.phone),
    email: cleanEmail(typed.email),
    taxNumber: cleanLine(typed.taxNumber),
    locale: cleanLocale(typed.locale),
  };
}

/** A language tag in its canonical spelling: `en-gb` is `en-GB`. */
function cleanLocale(typed: string): string {
  try {
    return Intl.getCanonicalLocales(typed)[0] ?? refuse('LOCALE_UNKNOWN', { locale: typed });
  } catch {
    return refuse('LOCALE_UNKNOWN', { locale: typed });
  }
}
