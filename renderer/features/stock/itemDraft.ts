import type { SentFor } from '#core/shared/catalogue.ts';
import { MATERIAL_UNITS } from '#core/shared/materialUnits.ts';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { type BaseUnit, MATERIALS, type Material } from '#core/shared/vocabulary.ts';

/** An item as it is being typed; what a new one has on the shelf comes with it. */
export type ItemDraft = {
  readonly name: string;
  readonly material: Material | 'none';
  readonly unit: BaseUnit;
  readonly packSize: number | null;
  readonly packWord: string;
  readonly place: string;
  readonly barcode: string;
  readonly hazards: string;
  readonly sheet: string;
  readonly reusable: boolean;
  readonly usesPerLife: number | null;
  readonly shelfPacks: number | null;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly preference: number | null;
  readonly amount: number | null;
  readonly valueMinor: number | null;
};
export type DraftPart = {
  readonly draft: ItemDraft;
  readonly set: (part: Partial<ItemDraft>) => void;
  /** Unit and going round are fixed once an item is written down: the ledger is counted in them. */
  readonly known: boolean;
};

const BLANK_ITEM: ItemDraft = {
  name: '',
  material: 'none',
  unit: 'ul',
  packSize: null,
  packWord: '',
  place: '',
  barcode: '',
  hazards: '',
  sheet: '',
  reusable: false,
  usesPerLife: null,
  shelfPacks: null,
  sealedLifeDays: null,
  openedLifeDays: null,
  preference: 0,
  amount: null,
  valueMinor: null,
};

const GO_ROUND: readonly Material[] = [
  'woolPad',
  'microfibrePad',
  'cuttingPad',
  'polishingPad',
  'finishingPad',
  'towel',
  'washMitt',
];

/**
 * What choosing a material says of a new item: the unit stages ask for it in, and whether it goes round. Amounts typed
 * in another unit are dropped.
 */
export function asMaterial(draft: ItemDraft, material: Material | 'none'): ItemDraft {
  if (material === 'none') return { ...draft, material };
  const unit = MATERIAL_UNITS[material];
  const reusable = GO_ROUND.includes(material);
  const amounts = unit === draft.unit ? {} : { packSize: null, amount: null };
  return { ...draft, material, unit, reusable, ...amounts };
}

/** A new item of the material named in the address, as links from a job or the list of what is missing name it. */
export function blankOf(material: string | null): ItemDraft {
  const known = MATERIALS.find((m) => m === material);
  return known ? asMaterial(BLANK_ITEM, known) : BLANK_ITEM;
}

export function draftOf(item: StockItemDetail): ItemDraft {
  const { id: _id, revision: _revision, endedDay: _endedDay, material, ...kept } = item;
  return { ...kept, material: material ?? 'none', amount: null, valueMinor: null };
}

export function isReady(draft: ItemDraft): boolean {
  return draft.name.trim() !== '' && draft.packSize !== null && draft.packSize > 0;
}

/** What both forms send alike. An empty word for a pack is left as it was, or as it is by default. */
function shared(draft: ItemDraft) {
  const { amount: _amount, valueMinor: _value, unit: _unit, reusable: _reusable, packWord, ...rest } = draft;
  return {
    ...rest,
    material: draft.material === 'none' ? null : draft.material,
    packSize: draft.packSize ?? 0,
    preference: draft.preference ?? 0,
    ...(packWord.trim() === '' ? {} : { packWord }),
  };
}

export function newItem(draft: ItemDraft): SentFor<'stock.addItem'> {
  const { unit, reusable, amount, valueMinor } = draft;
  const opening = amount === null ? null : { amount, valueMinor: valueMinor ?? 0 };
  return { ...shared(draft), unit, reusable, opening };
}

export function changesOf(draft: ItemDraft): SentFor<'stock.changeItem'>['changes'] {
  return shared(draft);
}
