import type { BaseUnit, Material } from './vocabulary.ts';

/** Columns of a list of items, in their order. Amounts in the base unit. */
export const ITEM_COLUMNS = [
  'name',
  'material',
  'unit',
  'packSize',
  'packWord',
  'place',
  'shelfPacks',
  'sealedLifeDays',
  'openedLifeDays',
  'hazards',
  'sheet',
  'barcode',
  'reusable',
  'usesPerLife',
  'preference',
] as const;
export type ItemColumn = (typeof ITEM_COLUMNS)[number];

/** One item as it travels in a list; `reusable` is yes or no. */
export type ItemLine = {
  readonly name: string;
  readonly material: Material | null;
  readonly unit: BaseUnit;
  readonly packSize: number;
  readonly packWord: string;
  readonly place: string;
  readonly shelfPacks: number | null;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly hazards: string;
  readonly sheet: string;
  readonly barcode: string;
  readonly reusable: 'yes' | 'no';
  readonly usesPerLife: number | null;
  readonly preference: number;
};
