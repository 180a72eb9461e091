import { type Locale, localeFor, type PaperLocale } from './say.ts';

/** How this shop writes things: its language, region, zone, currency and units. Taken from the shop's own row. */
export type Manner = {
  readonly locale: Locale;
  /** BCP 47 tag that decides separators and the order of day and month, such as `en-GB`. */
  readonly region: string;
  readonly zone: string;
  readonly currency: string;
  readonly filmUnit: 'um' | 'mil';
  readonly volumeUnit: 'ml' | 'floz';
  readonly lengthUnit: 'm' | 'ft';
};

/** What dates, figures and units need: all but the words. */
export type Figures = Omit<Manner, 'locale'>;

/** The same for a paper of a customer, in their language. */
export type PaperManner = Figures & { readonly locale: PaperLocale };

/** How a shop writes, from its own row: `locale` is its BCP 47 tag. */
export function mannerFor(shop: Omit<Manner, 'locale' | 'region'> & { readonly locale: string }): Manner {
  const { zone, currency, filmUnit, volumeUnit, lengthUnit, locale: region } = shop;
  return { locale: localeFor(region), region, zone, currency, filmUnit, volumeUnit, lengthUnit };
}

/** A figure to be set: the unit is shown smaller, so it stays apart. `unit` is '' where there is none. */
export type Amount = { readonly value: string; readonly unit: string };

/** What the program uses before a shop is set up. */
export const PLAIN_MANNER: Manner = {
  locale: 'en',
  region: 'en-GB',
  zone: 'UTC',
  currency: 'EUR',
  filmUnit: 'um',
  volumeUnit: 'ml',
  lengthUnit: 'm',
};

/** `9.5 h` in one piece, for sentences. Joined by a no-break space. */
export function amountText(amount: Amount): string {
  return amount.unit === '' ? amount.value : `${amount.value} ${amount.unit}`;
}
