import { useState } from 'react';
import { COUNTRY_EXAMPLES } from '#core/shared/examples.ts';
import type { Role } from '#core/shared/roles.ts';
import type { TaxCategory } from '#core/shared/tax.ts';

/** A shop as it is being set up at this window. Kept over a reload, without the PIN. */
export type Draft = {
  readonly name: string;
  readonly address: string;
  readonly phone: string;
  readonly email: string;
  readonly taxNumber: string;
  readonly country: string;
  readonly zone: string;
  readonly currency: string;
  readonly locale: string;
  readonly filmUnit: 'um' | 'mil';
  readonly volumeUnit: 'ml' | 'floz';
  readonly lengthUnit: 'm' | 'ft';
  readonly paper: 'A4' | 'Letter';
  readonly owner: string;
  readonly pin: string;
  readonly people: readonly { readonly name: string; readonly role: Role }[];
  readonly hourMinor: number | null;
  readonly pricesIncludeTax: boolean;
  readonly taxName: string;
  readonly taxCategory: TaxCategory;
  readonly taxPpm: number | null;
  readonly taxReason: string;
};

const KEY = 'rakelight.setUp';

/** The country's example laid over a draft: currency, zone, units, tax. */
export function withCountry(draft: Draft, country: string): Draft {
  const example = COUNTRY_EXAMPLES.find((e) => e.country === country);
  if (!example) return { ...draft, country };
  const us = example.units === 'us';
  return {
    ...draft,
    ...{ country, currency: example.currency, zone: example.zone, locale: example.locale },
    filmUnit: us ? 'mil' : 'um',
    volumeUnit: us ? 'floz' : 'ml',
    lengthUnit: us ? 'ft' : 'm',
    paper: us ? 'Letter' : 'A4',
    pricesIncludeTax: example.tax !== null,
    taxName: example.tax?.name ?? '',
    taxCategory: example.tax?.category ?? 'S',
    taxPpm: example.tax?.ratePpm ?? null,
  };
}

function fresh(): Draft {
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const near = COUNTRY_EXAMPLES.find((e) => e.zone === here)?.country ?? 'GB';
  const bare: Draft = {
    ...{ name: '', address: '', phone: '', email: '', taxNumber: '', country: '', zone: '', currency: '' },
    ...{ locale: 'en', owner: '', pin: '', people: [], hourMinor: null, pricesIncludeTax: true },
    ...{ taxName: '', taxCategory: 'S', taxPpm: null, taxReason: '' },
    ...{ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' },
  };
  return withCountry(bare, near);
}

function kept(): Draft {
  try {
    return { ...fresh(), ...(JSON.parse(sessionStorage.getItem(KEY) ?? '{}') as Partial<Draft>), pin: '' };
  } catch {
    return fresh();
  }
}

/** The draft and how to change parts of it. */
export function useDraft(): readonly [Draft, (part: Partial<Draft>) => void] {
  const [draft, setDraft] = useState<Draft>(kept);
  return [
    draft,
    (part) =>
      setDraft((before) => {
        const next = { ...before, ...part };
        sessionStorage.setItem(KEY, JSON.stringify({ ...next, pin: '' }));
        return next;
      }),
  ];
}

export function forgetDraft(): void {
  sessionStorage.removeItem(KEY);
}
