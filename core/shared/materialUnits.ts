import type { BaseUnit, Material } from './vocabulary.ts';

/** The base unit stages ask for each material in. Items of another unit can't serve them. */
export const MATERIAL_UNITS = {
  shampoo: 'ul',
  ironRemover: 'ul',
  tarRemover: 'ul',
  clayBar: 'mg',
  clayLube: 'ul',
  maskingTape: 'mm',
  heavyCutCompound: 'ul',
  mediumCompound: 'ul',
  finishingPolish: 'ul',
  panelWipe: 'ul',
  sealant: 'ul',
  coating: 'ul',
  interiorCleaner: 'ul',
  glassCleaner: 'ul',
  woolPad: 'piece',
  microfibrePad: 'piece',
  cuttingPad: 'piece',
  polishingPad: 'piece',
  finishingPad: 'piece',
  towel: 'piece',
  washMitt: 'piece',
  gloves: 'piece',
  applicator: 'piece',
} as const satisfies Readonly<Record<Material, BaseUnit>>;
