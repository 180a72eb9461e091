import { contactSeconds, removalTenthUm } from '../../paint/rules/removal.ts';
import { type MachineStep, SMALL_PADS_MM, type StepRole } from '../../shared/machineStep.ts';
import type { Level, PaintHardness, Severity } from '../../shared/vocabulary.ts';
import type { PanelSize } from './panels.ts';
import { cutUp, type SectionTime, sectionTime } from './sections.ts';

/** The shop's way of working, from its settings. */
export type WorkRules = {
  readonly sectionAlongMm: number;
  readonly sectionAcrossMm: number;
  readonly overlapPpm: number;
  readonly cutSpeedMmS: number;
  readonly refineSpeedMmS: number;
  readonly cutPasses: number;
  readonly refinePasses: number;
  readonly applyS: number;
  readonly wipeS: number;
  readonly cleanS: number;
  readonly cleanEvery: number;
  readonly steps: Readonly<Record<StepRole, MachineStep>>;
};

export type StepWork = {
  readonly role: StepRole;
  readonly stage: 'cut' | 'refine';
  readonly minutes: number;
  readonly sections: number;
  readonly passes: number;
  /** 0.1 µm off the whole panel; 0 for hand work. */
  readonly removalTenthUm: number;
  /** Pad used, mm; null = by hand. */
  readonly padMm: number | null;
};
export type PanelWork = {
  readonly steps: readonly StepWork[];
  readonly minutes: number;
  readonly removalTenthUm: number;
};

const ROLES: Readonly<Record<Level, readonly StepRole[]>> = {
  leave: [],
  washOnly: [],
  oneStage: ['oneStep'],
  twoStage: ['heavyCut', 'finish'],
  threeStage: ['heavyCut', 'mediumCut', 'finish'],
  sanded: ['heavyCut', 'mediumCut', 'finish'],
};

/** More passes for worse damage and harder paint. @source common practice, no source */
const SEVERITY: Readonly<Record<Severity | 'none', number>> = {
  none: 0.75,
  light: 0.75,
  moderate: 1,
  heavy: 1.5,
};
export const HARDNESS: Readonly<Record<PaintHardness, number>> = {
  soft: 0.8,
  medium: 1,
  unknown: 1,
  hard: 1.3,
};

/** Polishing by hand where no pad fits, seconds per cm² and step. @source common practice, no source */
const HAND_S_PER_CM2 = 0.6;

/** Passes that a test spot on this very car took, over those planned, by the step it was made with. */
export type PassFactors = Readonly<Partial<Record<StepRole, number>>>;

/**
 * Machine work of one panel at a level: minutes before calibration and film taken. A worse finding or a harder
 * paint never shortens it. Harder paint takes more passes for the same film.
 */
export function panelWork(
  size: PanelSize,
  level: Level,
  severity: Severity | null,
  hardness: PaintHardness,
  rules: WorkRules,
  factors: PassFactors = {},
): PanelWork {
  // Sanding leaves marks all over, whatever was found before.
  const worst = level === 'sanded' ? 'heavy' : severity;
  const steps = ROLES[level].map((role) => stepWork(size, role, worst, hardness, rules, factors[role]));
  return {
    steps,
    minutes: steps.reduce((sum, s) => sum + s.minutes, 0),
    removalTenthUm: steps.reduce((sum, s) => sum + s.removalTenthUm, 0),
  };
}

/** Whole passes a step plans for a severity and hardness, times what a test spot showed; at least one. */
export function passesFor(
  role: StepRole,
  severity: Severity | null,
  hardness: PaintHardness,
  rules: WorkRules,
  factor = 1,
): number {
  const usual = isCut(role) ? rules.cutPasses : rules.refinePasses;
  const planned = Math.max(1, Math.ceil(usual * SEVERITY[severity ?? 'none'] * HARDNESS[hardness] - 1e-9));
  return Math.max(1, Math.ceil(planned * factor - 1e-9));
}

function isCut(role: StepRole): boolean {
  return role === 'heavyCut' || role === 'mediumCut';
}

function stepWork(
  size: PanelSize,
  role: StepRole,
  severity: Severity | null,
  hardness: PaintHardness,
  rules: WorkRules,
  factor: number | undefined,
): StepWork {
  const stage = isCut(role) ? 'cut' : 'refine';
  const passes = passesFor(role, severity, hardness, rules, factor);
  const step = rules.steps[role];
  const cut = cutUp(size.alongMm, size.acrossMm, rules.sectionAlongMm, rules.sectionAcrossMm);
  const narrow = Math.min(cut.alongMm, cut.acrossMm);
  const padMm = [step.padDiameterMm, ...SMALL_PADS_MM].find((d) => d <= step.padDiameterMm && d <= narrow);
  const base = { role, stage, passes, sections: cut.count } as const;
  if (padMm === undefined)
    return { ...base, minutes: (size.areaCm2 * HAND_S_PER_CM2) / 60, removalTenthUm: 0, padMm: null };
  const armSpeedMmS = isCut(role) ? rules.cutSpeedMmS : rules.refineSpeedMmS;
  const time = sectionTime({ ...cut, ...rules, padDiameterMm: padMm, armSpeedMmS, passes });
  const film = removal(step, time, { ...cut, padMm, armSpeedMmS, passes });
  return {
    ...base,
    minutes: (time.seconds * cut.count) / 60,
    removalTenthUm: film / HARDNESS[hardness],
    padMm,
  };
}

type Over = {
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly padMm: number;
  readonly armSpeedMmS: number;
  readonly passes: number;
};

function removal(step: MachineStep, time: SectionTime, over: Over): number {
  const seconds = contactSeconds({ ...over, pathMm: time.pathMm, padDiameterMm: over.padMm });
  const speed = step.speedRpm / step.referenceRpm;
  return removalTenthUm(step.tenthUmPerKs / 1000, seconds, speed, step.pressureN / step.referenceN);
}
