import { assertNever } from '../../shared/errors.ts';
import type { MachineStep, StepRole } from '../../shared/machineStep.ts';
import type { ShopSettings } from '../../shared/settings.ts';
import type { CardCaution, StageHow } from '../../shared/views/card.ts';
import type { Material, StageKind } from '../../shared/vocabulary.ts';

/** Turns a minute at which a rotary cuts. @source common practice, no source */
export const ROTARY_CUT_RPM = 1400;

const BARE: StageHow = {
  role: null,
  machine: 'none',
  pad: null,
  liquid: null,
  spread: 'none',
  rpm: null,
  padMm: null,
  section: null,
  cautions: [],
};
/** Steps a machine stage may be made of, the hardest first. */
const ROLES = {
  cut: ['heavyCut', 'mediumCut', 'oneStep'],
  refine: ['finish', 'oneStep'],
} as const satisfies Record<'cut' | 'refine', readonly StepRole[]>;
type Way = Pick<
  ShopSettings['estimate'],
  'sectionLengthMm' | 'sectionWidthMm' | 'cutSpeedMmS' | 'refineSpeedMmS'
>;
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
 * How a stage is done, for the job card: machine, pad, speed and section as the shop has set its steps; the step is the
 * one whose pad and liquid are planned. Where that machine is a rotary, product is spread at the lowest speed first;
 * a rotary that is started on the paint kicks and can leave a hologram; edges are thin. A wool pad that no step uses
 * is run on a rotary at about 1,400 turns.
 *
 * @source common practice, no source
 */
export function howTo(
  kind: StageKind,
  materials: readonly Material[],
  steps: readonly MachineStep[],
  way: Way,
): StageHow {
  const pad = PADS.find((p) => materials.includes(p)) ?? null;
  const liquid = LIQUIDS.find((l) => materials.includes(l)) ?? null;
  switch (kind) {
    case 'cut':
    case 'refine':
      return machineStage(kind, stepFor(kind, materials, steps), pad, liquid, way);
    case 'sand':
      return { ...BARE, pad: abrasiveOf(materials), cautions: SANDING_CAUTIONS };
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

/** Water and mains current do not go together; what is sanded away does not come back. */
const SANDING_CAUTIONS: readonly CardCaution[] = [
  'sandedForGood',
  'noMainsInWater',
  'readFirst',
  'thinEdges',
  'protection',
  'wasteWater',
];

function abrasiveOf(materials: readonly Material[]): Material | null {
  return (['sandingDisc', 'fineSandingDisc'] as const).find((m) => materials.includes(m)) ?? null;
}

function stepFor(
  kind: 'cut' | 'refine',
  materials: readonly Material[],
  steps: readonly MachineStep[],
): MachineStep | null {
  const match = (s: MachineStep): number =>
    Number(materials.includes(s.pad)) * 2 + Number(materials.includes(s.liquid));
  const own = ROLES[kind].flatMap((role) => steps.find((s) => s.role === role) ?? []);
  const [best] = own.filter((s) => materials.includes(s.pad)).sort((a, b) => match(b) - match(a));
  return best ?? (materials.includes('woolPad') ? null : (own[0] ?? null));
}

function machineStage(
  kind: 'cut' | 'refine',
  step: MachineStep | null,
  pad: Material | null,
  liquid: Material | null,
  way: Way,
): StageHow {
  const machine = step?.machine ?? 'rotary';
  const rotary = machine === 'rotary';
  const kick: readonly CardCaution[] = rotary ? ['rotaryKick'] : [];
  return {
    role: step?.role ?? null,
    machine,
    pad: step?.pad ?? pad,
    liquid: step?.liquid ?? liquid,
    spread: rotary ? 'lowestSpeed' : 'none',
    rpm: step?.speedRpm ?? ROTARY_CUT_RPM,
    padMm: step?.padDiameterMm ?? null,
    section: {
      alongMm: way.sectionLengthMm,
      acrossMm: way.sectionWidthMm,
      armMmS: kind === 'cut' ? way.cutSpeedMmS : way.refineSpeedMmS,
    },
    cautions: ['readFirst', 'thinEdges', ...kick, 'protection', 'ventilation', 'towels'],
  };
}
