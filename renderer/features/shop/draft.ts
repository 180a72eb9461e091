import { useState } from 'react';
import { COUNTRY_EXAMPLES, exampleWeek, type WeeklyHours } from '#core/shared/examples.ts';
import type { Role } from '#core/shared/roles.ts';
import type { TaxCategory } from '#core/shared/tax.ts';
import { type BayKind, SKILLS, type Skill } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';

/** What somebody can do, at what pace, and when; `shifts` null = whenever the shop is open. */
export type Work = {
  readonly skills: readonly Skill[];
  readonly speedPpm: number;
  readonly shifts: readonly WeeklyHours[] | null;
};
export type DraftBay = {
  readonly name: string;
  readonly kind: BayKind;
  readonly capacity: number;
  readonly setupMin: number;
};
export type DraftPerson = {
  readonly name: string;
  readonly role: Role;
  /** Null = does not work on cars; not said = technicians do. */
  readonly work?: Work | null;
};
export const ALL_WORK: Work = { skills: SKILLS, speedPpm: 1_000_000, shifts: null };

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
  readonly pinAgain: string;
  readonly people: readonly DraftPerson[];
  /** Not said = the owner works on cars as long as no technician is named. */
  readonly ownerWork?: Work | null;
  readonly bays: readonly DraftBay[];
  readonly shopWeek: readonly WeeklyHours[];
  readonly deskWeek: readonly WeeklyHours[];
  /** Hours as they were typed and can't be read, by week and day; see `unreadKey`. */
  readonly unread: Readonly<Record<string, string>>;
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
  const noTax = { taxName: '', taxCategory: 'S', taxPpm: null, taxReason: '' } as const;
  if (!example) return { ...draft, country, locale: `en-${country}`, ...noTax };
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
    ...{ shopWeek: exampleWeek(country), deskWeek: exampleWeek(country), unread: {} },
  };
}

/** The rows of people in which a name was typed; the others are as good as not there. */
export function namedPeople(draft: Draft): readonly DraftPerson[] {
  return draft.people.filter((p) => p.name.trim() !== '');
}

/** Everybody named, the owner first, with what they do on cars. */
export function staffOf(draft: Draft): readonly (DraftPerson & { readonly work: Work | null })[] {
  const people = namedPeople(draft).map((p) => ({
    ...p,
    work: p.work === undefined ? (p.role === 'technician' ? ALL_WORK : null) : p.work,
  }));
  const alone = !people.some((p) => p.work);
  const work = draft.ownerWork === undefined ? (alone ? ALL_WORK : null) : draft.ownerWork;
  return [{ name: draft.owner, role: 'owner', work }, ...people];
}

/** Places to start from: a wash bay, two for correction, one for protection, a yard for three; an example. */
function exampleBays(t: Say): readonly DraftBay[] {
  const bay = (name: string, kind: BayKind, capacity = 1): DraftBay => ({
    name,
    kind,
    capacity,
    setupMin: 0,
  });
  return [
    bay(t('shop.bay.first.wash'), 'wash'),
    bay(t('shop.bay.first.one'), 'correction'),
    bay(t('shop.bay.first.two'), 'correction'),
    bay(t('shop.bay.first.protection'), 'protection'),
    bay(t('shop.bay.first.yard'), 'yard', 3),
  ];
}

function fresh(t: Say): Draft {
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const near = COUNTRY_EXAMPLES.find((e) => e.zone === here)?.country ?? 'GB';
  const bare: Draft = {
    ...{ name: '', address: '', phone: '', email: '', taxNumber: '', country: '', zone: '', currency: '' },
    ...{
      locale: 'en',
      owner: '',
      pin: '',
      pinAgain: '',
      people: [],
      hourMinor: null,
      pricesIncludeTax: true,
    },
    ...{ taxName: '', taxCategory: 'S', taxPpm: null, taxReason: '' },
    ...{ bays: exampleBays(t), shopWeek: [], deskWeek: [], unread: {} },
    ...{ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm', paper: 'A4' },
  };
  return withCountry(bare, near);
}

function kept(t: Say): Draft {
  try {
    return {
      ...fresh(t),
      ...(JSON.parse(sessionStorage.getItem(KEY) ?? '{}') as Partial<Draft>),
      pin: '',
      pinAgain: '',
    };
  } catch {
    return fresh(t);
  }
}

/** The draft and how to change parts of it. */
export function useDraft(t: Say): readonly [Draft, (part: Partial<Draft>) => void] {
  const [draft, setDraft] = useState<Draft>(() => kept(t));
  return [
    draft,
    (part) =>
      setDraft((before) => {
        const next = { ...before, ...part };
        sessionStorage.setItem(KEY, JSON.stringify({ ...next, pin: '', pinAgain: '' }));
        return next;
      }),
  ];
}

export function forgetDraft(): void {
  sessionStorage.removeItem(KEY);
}
