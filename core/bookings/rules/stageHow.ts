import { assertNever } from '../../shared/errors.ts';
import type { CardCaution, StageHow } from '../../shared/views/bookings.ts';
import type { Material, StageKind } from '../../shared/vocabulary.ts';

/** Turns a minute at which a rotary cuts. @source common practice, no source */
export const ROTARY_CUT_RPM = 1400;

const BARE: StageHow = { machine: 'none', pad: null, liquid: null, spread: 'none', rpm: null, cautions: [] };
const PADS = ['woolPad', 'microfibrePad', 'cuttingPad', 'polishingPad', 'finishingPad'] as const;
const LIQUIDS = [
  'heavyCutCompound',
  'mediumCompound',
  'finishingPolish',
  'shampoo',
  'ironRemover',
  'tarRemover',
  'clayLube',
  'panelWipe',
  'coating',
  'sealant',
  'interiorCleaner',
] as const;

/**
 * How a stage is done, for the job card: machine, pad and liquid out of the planned materials, speeds, cautions.
 * Product is spread at the lowest speed, then a rotary cuts at about 1,400 rpm; a rotary that is started
 * on the paint kicks and can leave a hologram; edges are thin.
 * A wool pad means a rotary, any other pad a dual-action machine.
 *
 * @source common practice, no source
 */
export function howTo(kind: StageKind, materials: readonly Material[]): StageHow {
  const pad = PADS.find((p) => materials.includes(p)) ?? null;
  const liquid = LIQUIDS.find((l) => materials.includes(l)) ?? null;
  switch (kind) {
    case 'cut':
      return machineStage(kind, pad, liquid);
    case 'refine':
      return machineStage(kind, pad, liquid);
    case 'wash':
      return { ...BARE, liquid, cautions: ['wasteWater', 'protection'] };
    case 'decontaminate':
      return { ...BARE, liquid, cautions: ['dataSheets', 'protection', 'ventilation', 'wasteWater'] };
    case 'clay':
      return { ...BARE, liquid, cautions: ['droppedClay', 'protection'] };
    case 'panelWipe':
    case 'protect':
      return { ...BARE, pad, liquid, cautions: ['dataSheets', 'protection', 'ventilation', 'towels'] };
    case 'cure':
      return { ...BARE, cautions: ['cureUntouched'] };
    case 'interior':
      return { ...BARE, liquid, cautions: ['dataSheets', 'protection'] };
    case 'inspection':
    case 'mask':
    case 'finalCheck':
    case 'handover':
      return BARE;
    default:
      return assertNever(kind);
  }
}

function machineStage(kind: 'cut' | 'refine', pad: Material | null, liquid: Material | null): StageHow {
  const rotary = pad === 'woolPad';
  const kick: readonly CardCaution[] = rotary || kind === 'cut' ? ['rotaryKick'] : [];
  return {
    machine: rotary ? 'rotary' : 'dualAction',
    pad,
    liquid,
    spread: 'lowestSpeed',
    rpm: kind === 'cut' ? ROTARY_CUT_RPM : null,
    cautions: ['readFirst', 'thinEdges', ...kick, 'protection', 'ventilation', 'towels'],
  };
}
