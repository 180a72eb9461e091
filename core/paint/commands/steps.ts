import type { ReadCtx, WriteCtx } from '../../context.ts';
import { sectionTime } from '../../estimate/rules/sections.ts';
import { refuse } from '../../shared/errors.ts';
import { DEFAULT_STEPS, type MachineStep, STEP_ROLES, type StepRole } from '../../shared/machineStep.ts';
import { ownSteps } from '../../views/estimateInputs.ts';
import { measuredSpots } from '../../views/measuredSpots.ts';
import { shopOf } from '../../views/shop.ts';
import { contactSeconds, refitRate } from '../rules/removal.ts';
import { saveStep } from '../store/removal.ts';

/** Every machine step as the shop uses it: its own, else the default. */
export function stepsInUse(ctx: Pick<ReadCtx, 'db'>): readonly MachineStep[] {
  const own = ownSteps(ctx.db);
  return STEP_ROLES.map((role) => own.find((s) => s.role === role) ?? DEFAULT_STEPS[role]);
}

/** Sets a machine step. */
export function setStep(ctx: WriteCtx, input: MachineStep): null {
  saveStep(ctx.db, input);
  ctx.changed(`step:${input.role}`, ...Object.keys(input));
  return null;
}

/**
 * Fits a step's removal rate to what the shop's own test spots really took, through the origin, with its standard
 * error. Spots tried with another pad or speed than the step now has are still counted at the step's geometry.
 * @throws NO_READING below two measured spots
 */
export function refitStep(
  ctx: WriteCtx,
  input: { readonly role: StepRole },
): { readonly tenthUmPerKs: number; readonly errorPerKs: number; readonly n: number } {
  const step = stepsInUse(ctx).find((s) => s.role === input.role) ?? DEFAULT_STEPS[input.role];
  const way = shopOf(ctx.db).settings.estimate;
  const cut = input.role === 'heavyCut' || input.role === 'mediumCut';
  const scale = (step.speedRpm / step.referenceRpm) * (step.pressureN / step.referenceN);
  const points = measuredSpots(ctx.db, input.role).map((spot) => ({
    seconds: scale * sectionContact(spot.passes, step, way, cut ? way.cutSpeedMmS : way.refineSpeedMmS),
    removedTenthUm: spot.removedTenthUm,
  }));
  const fit = refitRate(points) ?? refuse('NO_READING', {});
  const rate = {
    tenthUmPerKs: Math.round(fit.tenthUmPerSecond * 1000),
    errorPerKs: Math.round(fit.error * 1000),
  };
  setStep(ctx, { ...step, tenthUmPerKs: Math.max(0, rate.tenthUmPerKs), errorPerKs: rate.errorPerKs });
  return { ...rate, n: fit.n };
}

type Way = { readonly sectionLengthMm: number; readonly sectionWidthMm: number; readonly overlapPpm: number };

/** Contact of a whole section as the shop's settings lay it out. */
function sectionContact(passes: number, step: MachineStep, way: Way, armSpeedMmS: number): number {
  const section = { alongMm: way.sectionLengthMm, acrossMm: way.sectionWidthMm } as const;
  const over = { passes, armSpeedMmS, padDiameterMm: step.padDiameterMm } as const;
  const still = { applyS: 0, wipeS: 0, cleanS: 0, cleanEvery: 1 } as const;
  const { pathMm } = sectionTime({ ...section, ...over, ...still, overlapPpm: way.overlapPpm });
  return contactSeconds({ ...section, ...over, pathMm });
}
