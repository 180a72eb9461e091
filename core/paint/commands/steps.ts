import type { ReadCtx, WriteCtx } from '../../context.ts';
import { sectionTime } from '../../estimate/rules/sections.ts';
import { refuse } from '../../shared/errors.ts';
import {
  DEFAULT_STEPS,
  type MachineStep,
  machineStep,
  STEP_ROLES,
  type StepRole,
} from '../../shared/machineStep.ts';
import type { ShopSettings } from '../../shared/settings.ts';
import type { StepView } from '../../shared/views/paint.ts';
import { ownSteps } from '../../views/estimateInputs.ts';
import { measuredSpots } from '../../views/measuredSpots.ts';
import { shopOf } from '../../views/shop.ts';
import { contactSeconds, refitRate } from '../rules/removal.ts';
import { saveStep } from '../store/removal.ts';

/** Every machine step as the shop uses it: its own, else the default; with the film that one pass takes. */
export function stepsInUse(ctx: Pick<ReadCtx, 'db'>): readonly StepView[] {
  const own = ownSteps(ctx.db);
  const way = shopOf(ctx.db).settings.estimate;
  return STEP_ROLES.map((role) => {
    const set = own.find((s) => s.role === role);
    const step = set ?? DEFAULT_STEPS[role];
    const fits = step.padDiameterMm <= Math.min(way.sectionLengthMm, way.sectionWidthMm);
    const ks = fits ? scaledContact(1, step, way) / 1000 : null;
    return {
      ...step,
      tenthUmPerPass: ks === null ? null : step.tenthUmPerKs * ks,
      errorPerPass: ks === null || step.errorPerKs === null ? null : step.errorPerKs * ks,
      own: set !== undefined,
      spots: measuredSpots(ctx.db, role).length,
    };
  });
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
 * @throws SPOTS_TOO_FEW below two measured spots
 * @throws SPOTS_ABSURD when they would make a step that no paint allows: a slip in what was noted as taken
 * @throws PAD_OVERHANGS when the step's pad is wider than a section
 */
export function refitStep(
  ctx: WriteCtx,
  input: { readonly role: StepRole },
): { readonly tenthUmPerKs: number; readonly errorPerKs: number; readonly n: number } {
  const step = ownSteps(ctx.db).find((s) => s.role === input.role) ?? DEFAULT_STEPS[input.role];
  const way = shopOf(ctx.db).settings.estimate;
  const spots = measuredSpots(ctx.db, input.role);
  const points = spots.map((spot) => ({
    seconds: scaledContact(spot.passes, step, way),
    removedTenthUm: spot.removedTenthUm,
  }));
  const fit = refitRate(points) ?? refuse('SPOTS_TOO_FEW', { spots: spots.length });
  const rate = {
    tenthUmPerKs: Math.round(fit.tenthUmPerSecond * 1000),
    errorPerKs: Math.round(fit.error * 1000),
  };
  const fitted = machineStep.safeParse({ ...step, ...rate });
  if (!fitted.success) return refuse('SPOTS_ABSURD', { spots: fit.n });
  setStep(ctx, fitted.data);
  return { ...rate, n: fit.n };
}

type Way = ShopSettings['estimate'];

/** Contact seconds of a whole section as the shop's settings lay it out, at the step's own speed and pressure. */
function scaledContact(passes: number, step: MachineStep, way: Way): number {
  const cut = step.role === 'heavyCut' || step.role === 'mediumCut';
  const armSpeedMmS = cut ? way.cutSpeedMmS : way.refineSpeedMmS;
  const section = { alongMm: way.sectionLengthMm, acrossMm: way.sectionWidthMm } as const;
  const over = { passes, armSpeedMmS, padDiameterMm: step.padDiameterMm } as const;
  const still = { applyS: 0, wipeS: 0, cleanS: 0, cleanEvery: 1 } as const;
  const { pathMm } = sectionTime({ ...section, ...over, ...still, overlapPpm: way.overlapPpm });
  const scale = (step.speedRpm / step.referenceRpm) * (step.pressureN / step.referenceN);
  return scale * contactSeconds({ ...section, ...over, pathMm });
}
