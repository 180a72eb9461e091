import type { TaxCategory } from './tax.ts';

/**
 * A start for the set-up of a shop in some countries: currency, zone, units and the usual tax. Examples from memory,
 * not advice: rates change, and who has to charge what is for the shop's own adviser. `tax` null = places differ, ask.
 */
export type CountryExample = {
  readonly country: string;
  readonly currency: string;
  readonly zone: string;
  readonly locale: string;
  readonly units: 'metric' | 'us';
  readonly tax: { readonly name: string; readonly category: TaxCategory; readonly ratePpm: number } | null;
};

function vat(ratePpm: number, name = 'VAT'): CountryExample['tax'] {
  return { name, category: 'S', ratePpm };
}

export const COUNTRY_EXAMPLES: readonly CountryExample[] = [
  {
    country: 'AT',
    currency: 'EUR',
    zone: 'Europe/Vienna',
    locale: 'en-AT',
    units: 'metric',
    tax: vat(200_000),
  },
  {
    country: 'AU',
    currency: 'AUD',
    zone: 'Australia/Sydney',
    locale: 'en-AU',
    units: 'metric',
    tax: vat(100_000, 'GST'),
  },
  {
    country: 'CH',
    currency: 'CHF',
    zone: 'Europe/Zurich',
    locale: 'en-CH',
    units: 'metric',
    tax: vat(81_000),
  },
  {
    country: 'DE',
    currency: 'EUR',
    zone: 'Europe/Berlin',
    locale: 'en-DE',
    units: 'metric',
    tax: vat(190_000),
  },
  {
    country: 'FR',
    currency: 'EUR',
    zone: 'Europe/Paris',
    locale: 'en-FR',
    units: 'metric',
    tax: vat(200_000),
  },
  {
    country: 'GB',
    currency: 'GBP',
    zone: 'Europe/London',
    locale: 'en-GB',
    units: 'metric',
    tax: vat(200_000),
  },
  {
    country: 'IE',
    currency: 'EUR',
    zone: 'Europe/Dublin',
    locale: 'en-IE',
    units: 'metric',
    tax: vat(230_000),
  },
  {
    country: 'JP',
    currency: 'JPY',
    zone: 'Asia/Tokyo',
    locale: 'en-JP',
    units: 'metric',
    tax: vat(100_000, 'Consumption tax'),
  },
  {
    country: 'NL',
    currency: 'EUR',
    zone: 'Europe/Amsterdam',
    locale: 'en-NL',
    units: 'metric',
    tax: vat(210_000),
  },
  {
    country: 'NZ',
    currency: 'NZD',
    zone: 'Pacific/Auckland',
    locale: 'en-NZ',
    units: 'metric',
    tax: vat(150_000, 'GST'),
  },
  {
    country: 'PL',
    currency: 'PLN',
    zone: 'Europe/Warsaw',
    locale: 'en-PL',
    units: 'metric',
    tax: vat(230_000),
  },
  {
    country: 'SE',
    currency: 'SEK',
    zone: 'Europe/Stockholm',
    locale: 'en-SE',
    units: 'metric',
    tax: vat(250_000),
  },
  { country: 'US', currency: 'USD', zone: 'America/New_York', locale: 'en-US', units: 'us', tax: null },
];

/** Where a shop of this trade is often open on Saturday mornings too; from memory, an example to change. */
const SATURDAYS = ['AU', 'GB', 'IE', 'NZ', 'US'];

export type WeeklyHours = { readonly weekday: number; readonly startMin: number; readonly endMin: number };

/** A week to start from: Monday to Friday 08:00 to 17:00, some countries Saturday 09:00 to 13:00. */
export function exampleWeek(country: string): readonly WeeklyHours[] {
  const workdays = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, startMin: 480, endMin: 1020 }));
  return SATURDAYS.includes(country) ? [...workdays, { weekday: 6, startMin: 540, endMin: 780 }] : workdays;
}
