import type { BaseUnit, Material } from '../core/shared/vocabulary.ts';

/**
 * What lies on the demo shop's shelves: called by what it is, never by a maker's name. Pack sizes and prices are invented.
 * `[name, material, unit, pack size in base units, pack word, price of a pack in minor units, packs at the start, reorder habit]`
 */
export type DemoItem = {
  readonly name: string;
  readonly material: Material | null;
  readonly unit: BaseUnit;
  readonly pack: number;
  readonly word: string;
  readonly priceMinor: number;
  readonly startPacks: number;
  readonly place: string;
  readonly supplier: 0 | 1 | 2 | 3;
  readonly usesPerLife?: number;
  readonly openedLifeDays?: number;
  readonly sealedLifeDays?: number;
  readonly hazards?: string;
  readonly preference?: number;
};

const ML = 1000;
const LITRE = 1_000_000;
const GRAM = 1000;
const METRE = 1000;
const EYES = 'eye protection, gloves';
const SOLVENT = 'flammable; gloves, eye protection, ventilation';

type Row = readonly [
  string,
  Material | null,
  BaseUnit,
  number,
  string,
  number,
  number,
  string,
  0 | 1 | 2 | 3,
];
type More = Pick<DemoItem, 'usesPerLife' | 'openedLifeDays' | 'sealedLifeDays' | 'hazards' | 'preference'>;

function item(row: Row, more: More = {}): DemoItem {
  const [name, material, unit, pack, word, priceMinor, startPacks, place, supplier] = row;
  return { name, material, unit, pack, word, priceMinor, startPacks, place, supplier, ...more };
}

const liquids: readonly DemoItem[] = [
  item(['Wash shampoo, neutral', 'shampoo', 'ul', 5 * LITRE, 'canister', 3900, 4, 'A1', 0]),
  item(['Wash shampoo, strong', 'shampoo', 'ul', 5 * LITRE, 'canister', 4600, 2, 'A1', 0], {
    preference: 1,
    hazards: EYES,
  }),
  item(['Snow foam', null, 'ul', 5 * LITRE, 'canister', 4200, 2, 'A1', 0]),
  item(['Iron remover', 'ironRemover', 'ul', 5 * LITRE, 'canister', 7900, 6, 'A2', 0], { hazards: EYES }),
  item(['Tar and glue remover', 'tarRemover', 'ul', LITRE, 'bottle', 1690, 3, 'A2', 0], { hazards: SOLVENT }),
  item(['Clay lubricant', 'clayLube', 'ul', 5 * LITRE, 'canister', 2900, 7, 'A3', 0]),
  item(['Heavy-cut compound', 'heavyCutCompound', 'ul', LITRE, 'bottle', 3450, 5, 'B1', 1], {
    openedLifeDays: 540,
  }),
  item(['Heavy-cut compound, small', 'heavyCutCompound', 'ul', 250 * ML, 'bottle', 1290, 2, 'B1', 2], {
    preference: 1,
  }),
  item(['Medium compound', 'mediumCompound', 'ul', LITRE, 'bottle', 3290, 4, 'B1', 1], {
    openedLifeDays: 540,
  }),
  item(['Finishing polish', 'finishingPolish', 'ul', LITRE, 'bottle', 3180, 5, 'B2', 1], {
    openedLifeDays: 540,
  }),
  item(['Finishing polish, hard paint', 'finishingPolish', 'ul', LITRE, 'bottle', 3580, 1, 'B2', 2], {
    preference: 1,
  }),
  item(['Panel wipe', 'panelWipe', 'ul', 5 * LITRE, 'canister', 3600, 3, 'C1', 0], { hazards: SOLVENT }),
  item(['Spray sealant', 'sealant', 'ul', LITRE, 'bottle', 2750, 2, 'C2', 1]),
  item(['Paste wax', null, 'mg', 200 * GRAM, 'tin', 2400, 2, 'C2', 2]),
  item(['Ceramic coating, two year', 'coating', 'ul', 50 * ML, 'bottle', 5200, 36, 'C3', 1], {
    openedLifeDays: 14,
    sealedLifeDays: 365,
    hazards: SOLVENT,
  }),
  item(['Ceramic coating, five year', 'coating', 'ul', 50 * ML, 'bottle', 8900, 2, 'C3', 2], {
    openedLifeDays: 14,
    sealedLifeDays: 365,
    hazards: SOLVENT,
    preference: 1,
  }),
  item(['Interior cleaner', 'interiorCleaner', 'ul', 5 * LITRE, 'canister', 2950, 2, 'D1', 0]),
  item(['Leather cleaner', null, 'ul', LITRE, 'bottle', 1650, 2, 'D1', 0]),
  item(['Fabric protector', null, 'ul', LITRE, 'bottle', 2900, 1, 'D1', 2], { hazards: SOLVENT }),
  item(['Glass cleaner', 'glassCleaner', 'ul', 5 * LITRE, 'canister', 1950, 2, 'D2', 0]),
  item(['Wheel cleaner', null, 'ul', 5 * LITRE, 'canister', 3100, 2, 'D3', 0], { hazards: EYES }),
  item(['Tyre dressing', null, 'ul', 5 * LITRE, 'canister', 2700, 1, 'D3', 0]),
  item(['Trim restorer', null, 'ul', 500 * ML, 'bottle', 1800, 2, 'D3', 2]),
  item(['All-purpose cleaner', null, 'ul', 5 * LITRE, 'canister', 2100, 3, 'D2', 0]),
  item(['Water spot remover', null, 'ul', 500 * ML, 'bottle', 1700, 2, 'A2', 2], {
    hazards: 'acid; gloves, eye protection',
  }),
  item(['Pad cleaning solution', null, 'ul', 5 * LITRE, 'canister', 2400, 1, 'E4', 1]),
];

const usedUp: readonly DemoItem[] = [
  item(['Clay bar, medium, 200 g', 'clayBar', 'mg', 200 * GRAM, 'bar', 1450, 22, 'A3', 0]),
  item(['Clay bar, fine, 200 g', 'clayBar', 'mg', 200 * GRAM, 'bar', 1390, 4, 'A3', 2], { preference: 1 }),
  item(['Masking tape, low tack, 25 mm', 'maskingTape', 'mm', 50 * METRE, 'roll', 340, 40, 'E1', 3]),
  item(['Masking tape, fine line, 6 mm', null, 'mm', 33 * METRE, 'roll', 420, 6, 'E1', 3]),
  item(['Masking film, 2.7 m wide', null, 'mm', 20 * METRE, 'roll', 650, 4, 'E1', 3]),
  item(['Nitrile gloves, M', 'gloves', 'piece', 100, 'box', 1150, 6, 'E2', 3]),
  item(['Nitrile gloves, L', 'gloves', 'piece', 100, 'box', 1150, 5, 'E2', 3], { preference: 1 }),
  item(['Coating applicator block', 'applicator', 'piece', 50, 'pack', 4900, 3, 'C3', 1]),
  item(['Suede cloths for coating', null, 'piece', 50, 'pack', 1600, 3, 'C3', 1]),
  item(['Breathing mask, P2', null, 'piece', 20, 'box', 2600, 2, 'E2', 3]),
  item(['Breathing filter, A2', null, 'piece', 2, 'pair', 1900, 3, 'E2', 3]),
  item(['Safety glasses', null, 'piece', 1, 'piece', 450, 5, 'E2', 3]),
  item(['Sanding discs, P2000', 'sandingDisc', 'piece', 50, 'box', 3200, 1, 'B4', 3]),
  item(['Sanding discs, P3000', 'fineSandingDisc', 'piece', 50, 'box', 3400, 1, 'B4', 3]),
  item(['Razor blades, plastic', null, 'piece', 100, 'box', 900, 1, 'E3', 3]),
  item(['Lamp battery', null, 'piece', 1, 'piece', 2900, 2, 'E3', 3]),
  item(['Paper floor mats', null, 'piece', 250, 'box', 2200, 2, 'E3', 3]),
  item(['Seat covers, film', null, 'piece', 100, 'roll', 1800, 2, 'E3', 3]),
  item(['Spray bottles, 500 ml', null, 'piece', 1, 'piece', 290, 12, 'E3', 3]),
  item(['Bin bags, heavy', null, 'piece', 25, 'roll', 480, 4, 'E4', 3]),
  item(['Hand cleaner', null, 'ul', 3 * LITRE, 'tub', 1700, 1, 'E4', 3]),
];

const goRound: readonly DemoItem[] = [
  item(['Wool pad, 150 mm', 'woolPad', 'piece', 2, 'pack', 2600, 6, 'B3', 1], { usesPerLife: 20 }),
  item(['Microfibre pad, 150 mm', 'microfibrePad', 'piece', 2, 'pack', 2400, 8, 'B3', 1], {
    usesPerLife: 12,
  }),
  item(['Foam cutting pad, 150 mm', 'cuttingPad', 'piece', 2, 'pack', 1900, 24, 'B3', 1], {
    usesPerLife: 15,
  }),
  item(['Foam cutting pad, 75 mm', 'cuttingPad', 'piece', 2, 'pack', 1200, 4, 'B3', 2], {
    usesPerLife: 12,
    preference: 1,
  }),
  item(['Foam polishing pad, 150 mm', 'polishingPad', 'piece', 2, 'pack', 1900, 24, 'B3', 1], {
    usesPerLife: 15,
  }),
  item(['Foam finishing pad, 150 mm', 'finishingPad', 'piece', 2, 'pack', 1900, 20, 'B3', 1], {
    usesPerLife: 15,
  }),
  item(['Foam finishing pad, 75 mm', 'finishingPad', 'piece', 2, 'pack', 1200, 3, 'B3', 2], {
    usesPerLife: 12,
    preference: 1,
  }),
  item(['Towel, long pile', 'towel', 'piece', 10, 'pack', 2200, 32, 'E5', 1], { usesPerLife: 60 }),
  item(['Towel, short pile', 'towel', 'piece', 10, 'pack', 1500, 12, 'E5', 1], {
    usesPerLife: 50,
    preference: 1,
  }),
  item(['Drying towel, large', null, 'piece', 2, 'pack', 2900, 6, 'E5', 1], { usesPerLife: 100 }),
  item(['Wash mitt', 'washMitt', 'piece', 2, 'pack', 1700, 20, 'E5', 0], { usesPerLife: 60 }),
  item(['Glass cloth', null, 'piece', 10, 'pack', 1300, 3, 'E5', 1], { usesPerLife: 60 }),
  item(['Pad brush', null, 'piece', 1, 'piece', 650, 3, 'B3', 2], { usesPerLife: 200 }),
];

export const DEMO_ITEMS: readonly DemoItem[] = [...liquids, ...usedUp, ...goRound];

const MON_FRI = [1, 2, 3, 4, 5];
/** Invented suppliers: `[name, working days to deliver, least order in minor units, weekdays they work]`. */
export const DEMO_SUPPLIERS = [
  ['Fellgate Chemical Supply', 2, 5000, [...MON_FRI, 6]],
  ['Northlight Finishing Trade', 4, 15_000, MON_FRI],
  ['Corner Bench Workshop Goods', 6, 0, MON_FRI],
  ['Mill Rise Safety and Sundries', 1, 3000, MON_FRI],
] as const;
