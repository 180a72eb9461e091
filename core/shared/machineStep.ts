import { z } from 'zod';
import { MATERIALS } from './vocabulary.ts';

export const STEP_ROLES = ['heavyCut', 'mediumCut', 'oneStep', 'finish'] as const;
/** What a machine step is for: the levels of a panel are made of these. */
export type StepRole = (typeof STEP_ROLES)[number];

export const MACHINES = ['rotary', 'orbital', 'forced'] as const;
/** Rotary turns about its spindle; orbital runs free on its orbit; forced turns while it orbits. */
export type Machine = (typeof MACHINES)[number];

/**
 * A machine with its pad and liquid. Film in 0.1 µm per 1,000 s of contact at the reference speed and pressure, so
 * that small rates stay whole numbers.
 */
export const machineStep = z.strictObject({
  role: z.enum(STEP_ROLES),
  machine: z.enum(MACHINES),
  pad: z.enum(MATERIALS),
  liquid: z.enum(MATERIALS),
  padDiameterMm: z.int().min(20).max(230),
  speedRpm: z.int().min(100).max(12_000),
  referenceRpm: z.int().min(100).max(12_000),
  pressureN: z.int().min(1).max(300),
  referenceN: z.int().min(1).max(300),
  tenthUmPerKs: z.int().min(0).max(20_000),
  /** Standard error of the rate from the shop's own readings; null for a default. */
  errorPerKs: z.int().min(0).max(20_000).nullable(),
  /** Sections that one pad does before it is changed for a clean one. */
  sectionsPerPad: z.int().min(1).max(100),
});
export type MachineStep = z.output<typeof machineStep>;

/** Defaults until the shop sets or measures its own. @source common practice, no source; rates from memory */
export const DEFAULT_STEPS: Readonly<Record<StepRole, MachineStep>> = {
  heavyCut: step('heavyCut', 'rotary', 'cuttingPad', 'heavyCutCompound', 1400, 1050, 8),
  mediumCut: step('mediumCut', 'forced', 'microfibrePad', 'mediumCompound', 450, 630, 10),
  oneStep: step('oneStep', 'orbital', 'polishingPad', 'mediumCompound', 4200, 420, 12),
  finish: step('finish', 'orbital', 'finishingPad', 'finishingPolish', 3600, 210, 14),
};

function step(
  role: StepRole,
  machine: Machine,
  pad: MachineStep['pad'],
  liquid: MachineStep['liquid'],
  rpm: number,
  tenthUmPerKs: number,
  sectionsPerPad: number,
): MachineStep {
  return {
    role,
    machine,
    pad,
    liquid,
    padDiameterMm: 140,
    speedRpm: rpm,
    referenceRpm: rpm,
    pressureN: 40,
    referenceN: 40,
    tenthUmPerKs,
    errorPerKs: null,
    sectionsPerPad,
  };
}

/** Smaller pads for narrow places, mm, tried from the largest; below the last it is hand work. */
export const SMALL_PADS_MM = [75, 50, 30] as const;
