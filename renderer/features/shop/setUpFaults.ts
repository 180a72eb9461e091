import type { ErrorCode, PlainError } from '#core/shared/errors.ts';
import type { Say } from '../../bridge/texts.tsx';
import { type Draft, namedPeople, staffOf } from './draft.ts';
import type { Step } from './steps.ts';
import { unreadOf } from './week.ts';

/** What keeps the shop from being set up: on which step it is, and the sentence. `open`: only not said yet. */
export type SetUpFault = { readonly step: Step; readonly says: string; readonly open?: boolean };

/** All that keeps a draft from being set up, in the order of the steps. Rows in which nothing was typed are no fault: they are left out. */
export function faultsIn(draft: Draft, t: Say): readonly SetUpFault[] {
  const faults: (SetUpFault | false | undefined)[] = [
    draft.name.trim() === '' && { step: 'shop', says: t('shop.setUp.needsName'), open: true },
    ...ownerFaults(draft, t),
    ...twice(namesOf(draft)).map(
      (name): SetUpFault => ({ step: 'people', says: t('shop.setUp.nameTwice', { name }) }),
    ),
    ...twice(draft.bays.map((bay) => bay.name)).map(
      (name): SetUpFault => ({ step: 'bays', says: t('error.BAY_NAME_TWICE', { name }) }),
    ),
    hoursUnread(draft) && { step: 'hours', says: t('shop.setUp.hoursUnread') },
    shiftsUnread(draft) && { step: 'work', says: t('shop.setUp.shiftsUnread') },
    ...taxFaults(draft, t),
  ];
  return faults.filter((fault) => fault !== false && fault !== undefined);
}

function ownerFaults(draft: Draft, t: Say): readonly (SetUpFault | false)[] {
  return [
    draft.owner.trim() === '' && { step: 'people', says: t('shop.setUp.needsOwner'), open: true },
    pinFault(draft.pin) && { step: 'people', says: t('shop.setUp.pinShape') },
    draft.pin !== draft.pinAgain && { step: 'people', says: t('shop.pinDiffers') },
  ];
}

/** A PIN is 4 to 12 digits; none is fine. */
export function pinFault(pin: string): boolean {
  return pin !== '' && !/^\d{4,12}$/.test(pin);
}

function taxFaults(draft: Draft, t: Say): readonly (SetUpFault | false)[] {
  const { taxName, taxCategory, taxPpm, taxReason } = draft;
  if (taxName.trim() === '') return [];
  const untaxed = taxCategory !== 'S' && taxCategory !== 'Z';
  return [
    taxCategory === 'S' && (taxPpm ?? 0) <= 0 && { step: 'tax', says: t('shop.taxNeedsRate') },
    untaxed && taxReason.trim() === '' && { step: 'tax', says: t('shop.taxNeedsReason') },
  ];
}

function namesOf(draft: Draft): readonly string[] {
  return [draft.owner, ...namedPeople(draft).map((p) => p.name)];
}

/** Names that stand there more than once, capitals and blanks aside. */
export function twice(names: readonly string[]): readonly string[] {
  const said = names.map((name) => name.trim());
  const plain = said.map((name) => name.toLowerCase());
  return said.filter((name, i) => name !== '' && plain.indexOf(name.toLowerCase()) < i);
}

function hoursUnread(draft: Draft): boolean {
  return unreadOf(draft.unread, ['shop', 'desk']);
}

function shiftsUnread(draft: Draft): boolean {
  const own = staffOf(draft).filter((p) => p.work?.shifts);
  return unreadOf(
    draft.unread,
    own.map((p) => p.name),
  );
}

const STEP_OF: Readonly<Partial<Record<ErrorCode, Step>>> = {
  EMAIL_UNREADABLE: 'shop',
  ZONE_UNKNOWN: 'place',
  CURRENCY_UNKNOWN: 'place',
  LOCALE_UNKNOWN: 'place',
  PERSON_NAME_TAKEN: 'people',
  PIN_SHAPE: 'people',
  BAY_NAME_TWICE: 'bays',
  TAX_CATEGORY_RATE: 'tax',
  TAX_REASON_MISSING: 'tax',
};
const STEP_OF_FIELD: Readonly<Record<string, Step>> = {
  ...{ owner: 'people', people: 'people', bays: 'bays', hours: 'hours', technicians: 'work' },
  ...{ rates: 'price', taxes: 'tax', shop: 'shop' },
};

/** The step that a refusal is about, if it is about one. */
export function stepOfRefusal(refusal: PlainError): Step | undefined {
  const field = 'field' in refusal.data ? refusal.data.field : undefined;
  const named = typeof field === 'string' ? STEP_OF_FIELD[field.split('.')[0] ?? ''] : undefined;
  return STEP_OF[refusal.code] ?? named;
}
