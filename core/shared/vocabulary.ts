/**
 * The trade's words as closed unions. Stored as these texts, shown through the locale files
 * (`word.stage.cut`, `word.defect.swirls` …).
 */

/** Panels of the flat car. A body style without a panel leaves its id out. l/r = left/right hand. */
export const PANELS = [
  'fb',
  'bo',
  'ro',
  'bl',
  'rb',
  'lfw',
  'lfd',
  'lrd',
  'lrq',
  'lsl',
  'lap',
  'lcr',
  'lcp',
  'lmi',
  'rfw',
  'rfd',
  'rrd',
  'rrq',
  'rsl',
  'rap',
  'rcr',
  'rcp',
  'rmi',
] as const;
export type PanelId = (typeof PANELS)[number];

export const BODY_STYLES = ['saloon', 'hatch', 'estate', 'coupe', 'tall', 'van', 'pickup'] as const;
export type BodyStyle = (typeof BODY_STYLES)[number];

export const SUBSTRATES = ['steel', 'aluminium', 'plastic', 'composite'] as const;
export type Substrate = (typeof SUBSTRATES)[number];

export const DEFECTS = [
  'swirls',
  'scratches',
  'deepScratches',
  'oxidation',
  'waterSpots',
  'contamination',
  'etching',
  'holograms',
  'sandingMarks',
  'runs',
  'stoneChips',
  'clearCoatFailure',
] as const;
export type Defect = (typeof DEFECTS)[number];

export const SEVERITIES = ['light', 'moderate', 'heavy'] as const;
export type Severity = (typeof SEVERITIES)[number];

export const VERDICTS = ['comesOut', 'maySoften', 'stays'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** In the order of work. */
export const STAGE_KINDS = [
  'inspection',
  'wash',
  'decontaminate',
  'clay',
  'mask',
  'sand',
  'cut',
  'refine',
  'panelWipe',
  'protect',
  'cure',
  'interior',
  'finalCheck',
  'handover',
] as const;
export type StageKind = (typeof STAGE_KINDS)[number];

/** Stages that take film off paint, in the order of work. */
export const MACHINE_STAGES = ['sand', 'cut', 'refine'] as const satisfies readonly StageKind[];

export function isMachineStage(kind: StageKind): boolean {
  return MACHINE_STAGES.some((machine) => machine === kind);
}

/** How far a panel is taken: its level in the plan and on the quote. */
export const LEVELS = ['leave', 'washOnly', 'oneStage', 'twoStage', 'threeStage', 'sanded'] as const;
export type Level = (typeof LEVELS)[number];

export const BAY_KINDS = ['wash', 'correction', 'protection', 'yard'] as const;
export type BayKind = (typeof BAY_KINDS)[number];

export const SKILLS = ['wash', 'correction', 'protection', 'interior', 'inspection'] as const;
export type Skill = (typeof SKILLS)[number];

export const PAINT_HARDNESS = ['soft', 'medium', 'hard', 'unknown'] as const;
export type PaintHardness = (typeof PAINT_HARDNESS)[number];

/** What a stage uses up or wears, by what it is. Stock items point at one of these. */
export const MATERIALS = [
  'shampoo',
  'ironRemover',
  'tarRemover',
  'clayBar',
  'clayLube',
  'maskingTape',
  'heavyCutCompound',
  'mediumCompound',
  'finishingPolish',
  'sandingDisc',
  'fineSandingDisc',
  'panelWipe',
  'sealant',
  'coating',
  'interiorCleaner',
  'glassCleaner',
  'woolPad',
  'microfibrePad',
  'cuttingPad',
  'polishingPad',
  'finishingPad',
  'towel',
  'washMitt',
  'gloves',
  'applicator',
] as const;
export type Material = (typeof MATERIALS)[number];

/** Base unit each material is counted in: µl, mg, mm or pieces. Amounts are integers of it. */
export const BASE_UNITS = ['ul', 'mg', 'mm', 'piece'] as const;
export type BaseUnit = (typeof BASE_UNITS)[number];

/** A job from the first call to the last payment. Ends: collected, cancelled, noShow. */
export const JOB_STATES = [
  'enquiry',
  'quoted',
  'booked',
  'here',
  'inWork',
  'ready',
  'collected',
  'cancelled',
  'noShow',
] as const;
export type JobState = (typeof JOB_STATES)[number];

export const STAGE_STATES = ['planned', 'inWork', 'paused', 'done', 'dropped'] as const;
export type StageState = (typeof STAGE_STATES)[number];
