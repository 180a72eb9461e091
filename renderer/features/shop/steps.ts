import type { SentFor } from '#core/shared/catalogue.ts';
import { countryName } from '#core/shared/places.ts';
import { money, rate } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { Say } from '../../bridge/texts.tsx';
import { type Draft, namedPeople, staffOf } from './draft.ts';
import { baysSentence, hoursSentence } from './said.ts';
import { openingOf } from './week.ts';

export const STEPS = ['shop', 'place', 'people', 'bays', 'hours', 'work', 'price', 'tax'] as const;
export type Step = (typeof STEPS)[number];

export function isSaid(step: Step, draft: Draft): boolean {
  switch (step) {
    case 'shop':
      return draft.name.trim() !== '';
    case 'place':
      return draft.zone !== '';
    case 'people':
      return draft.owner.trim() !== '';
    case 'work':
      return staffOf(draft).some((p) => p.work && p.work.skills.length > 0 && p.name.trim() !== '');
    case 'bays':
      return draft.bays.length > 0;
    case 'hours':
      return draft.shopWeek.length > 0;
    case 'price':
      return draft.hourMinor !== null;
    case 'tax':
      return draft.taxName !== '';
  }
}

/** A sentence of what is set in a step. */
export function sentenceOf(step: Step, draft: Draft, manner: Manner, t: Say): string {
  if (!isSaid(step, draft)) return t('shop.setUp.open');
  switch (step) {
    case 'shop':
      return [draft.name, draft.phone].filter(Boolean).join(', ');
    case 'place':
      return [countryName(manner.locale, draft.country), draft.zone, draft.currency].join(', ');
    case 'people':
      return [draft.owner, ...namedPeople(draft).map((p) => p.name)].join(', ');
    case 'work':
      return staffOf(draft)
        .flatMap((p) => (p.work ? [p.name] : []))
        .join(', ');
    case 'bays':
      return baysSentence(draft.bays, t);
    case 'hours':
      return hoursSentence(draft.shopWeek, manner, t);
    case 'price':
      return t('shop.perHour', { price: money(manner, draft.hourMinor ?? 0) });
    case 'tax':
      return `${draft.taxName} ${amountText(rate(manner, draft.taxPpm ?? 0))}`;
  }
}

/** The draft as the one command that sets the shop up. */
export function inputOf(draft: Draft, token: string): SentFor<'shop.setUp'> {
  const {
    owner,
    pin,
    pinAgain: _again,
    people: _people,
    ownerWork: _work,
    unread: _unread,
    bays,
    shopWeek,
    deskWeek,
    hourMinor,
    pricesIncludeTax,
    taxName,
    taxCategory,
    taxPpm,
    taxReason,
    ...shop
  } = draft;
  const hours = openingOf(shopWeek, deskWeek);
  return {
    shop,
    owner: { name: owner, token, ...(pin ? { pin } : {}) },
    people: namedPeople(draft).map(({ name, role }) => ({ name, role })),
    bays: bays.filter((bay) => bay.name.trim() !== ''),
    ...(hours.length > 0 ? { hours } : {}),
    technicians: techniciansOf(draft),
    rates: hourMinor === null ? [] : [{ hourMinor }],
    taxes: taxName.trim() === '' ? [] : [taxOf({ taxName, taxCategory, taxPpm, taxReason })],
    settings: [{ setting: 'billing.pricesIncludeTax', value: pricesIncludeTax }],
  };
}

function taxOf(draft: Pick<Draft, 'taxName' | 'taxCategory' | 'taxPpm' | 'taxReason'>) {
  return {
    name: draft.taxName,
    category: draft.taxCategory,
    ratePpm: draft.taxPpm ?? 0,
    reason: draft.taxReason,
  };
}

function techniciansOf(draft: Draft) {
  return staffOf(draft).flatMap(({ name, work }) =>
    work
      ? [
          {
            name,
            skills: [...work.skills],
            speedPpm: work.speedPpm,
            shifts: [...(work.shifts ?? draft.shopWeek)],
          },
        ]
      : [],
  );
}
