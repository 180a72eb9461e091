import type { Machine, StepRole } from '../machineStep.ts';
import type { EpochMs } from '../units.ts';
import type { Material, PanelId } from '../vocabulary.ts';
import type { JobView, StageView } from './bookings.ts';
import type { FoundView, MayWhy } from './paint.ts';
import type { SheetPlace } from './stockItem.ts';

/** How a stage is done: proposed settings in the trade's words. Common practice, no source. */
export type StageHow = {
  /** The machine step it is done with; null where none of the shop's steps is. */
  readonly role: StepRole | null;
  readonly machine: 'none' | Machine;
  readonly pad: Material | null;
  readonly liquid: Material | null;
  readonly spread: 'none' | 'lowestSpeed';
  /** Working speed of the machine in turns (or orbits) a minute as the shop has set it, null by hand. */
  readonly rpm: number | null;
  readonly padMm: number | null;
  /** Sections the stage is worked in and how fast the arm goes over them; null where no machine is used. */
  readonly section: { readonly alongMm: number; readonly acrossMm: number; readonly armMmS: number } | null;
  readonly cautions: readonly CardCaution[];
};

export const CARD_CAUTIONS = [
  'rotaryKick',
  'sandedForGood',
  'noMainsInWater',
  'thinEdges',
  'readFirst',
  'protection',
  'ventilation',
  'dataSheets',
  'towels',
  'droppedClay',
  'cureUntouched',
  'wasteWater',
] as const;

export type CardCaution = (typeof CARD_CAUTIONS)[number];

/** Film facts of a panel on the card, 0.1 µm; null where nobody has read it. */
export type CardPanel = {
  readonly panel: PanelId;
  readonly lowestTenthUm: number | null;
  /** Lowest reading after the work of this visit. */
  readonly lowestAfterTenthUm: number | null;
  readonly mayTakeTenthUm: number | null;
  readonly thin: boolean;
  /** What that figure rests on, or why there is none. */
  readonly why: MayWhy;
  readonly findings: readonly FoundView[];
};

export type CardStage = StageView & {
  readonly how: StageHow;
  /** Hazards and safety data sheets of what the stage uses. */
  readonly sheets: readonly SheetPlace[];
};

/** The job card: what somebody in the bay needs to do this car. */
export type CardView = {
  readonly job: JobView;
  readonly stages: readonly CardStage[];
  readonly panels: readonly CardPanel[];
  readonly shop: {
    readonly name: string;
    readonly zone: string;
    readonly locale: string;
    readonly filmUnit: 'um' | 'mil';
    readonly paper: 'A4' | 'Letter';
  };
  readonly nowMs: EpochMs;
};
