import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import {
  DEFAULT_STEPS,
  type MachineStep,
  machineStep,
  STEP_ROLES,
  type StepRole,
} from '../../shared/machineStep.ts';
import type { StepView } from '../../shared/views/paint.ts';
import { ownSteps } from '../../views/estimateInputs.ts';
import { measuredSpots } from '../../views/measuredSpots.ts';
import { shopOf } from '../../views/shop.ts';
import { refitRate } from '../rules/removal.ts';
import { padFits, scaledContact } from '../rules/spotFilm.ts';
import { saveStep } from '../store/removal.ts';

type In<N extends keyof typeof paintEntries> = InputOf<(typeof paintEntries)[N]>;

/** Every machine step as the shop uses it: its own, else the default; with the film that one pass takes. */
export function stepsInUse(ctx: Pick<ReadCtx, 'db'>): readonly StepView[] {
  const own = ownSteps(ctx.db);
  const way = shopOf(ctx.db).settings.estimate;
  return STEP_ROLES.map((role) => {
    const set = own.find((s) => s.role === role);
    const step = set ?? DEFAULT_STEPS[role];
    const ks = padFits(step, way) ? scaledContact(1, step, way) / 1000 : null;
    return {
      ...step,
      tenthUmPerPass: ks === null ? null : step.tenthUmPerKs * ks,
      errorPerPass: ks === null || step.errorPerKs === null ? null : step.errorPerKs * ks,
      own: set !== undefined,
      revision: set?.revision ?? 0,
      spots: measuredSpots(ctx.db, role).length,
    };
  });
}

/** Sets a machine step. @throws STALE when it was changed since it was seen */
export function setStep(ctx: WriteCtx, input: In<'paint.setStep'>): null {
  const { revision, ...step } = input;
  needSeen(ctx, step.role, revision);
  save(ctx, step);
  return null;
}

/** The step as the shop set it, null where the default stands. @throws STALE when that is not what was seen */
function needSeen(ctx: WriteCtx, role: StepRole, revision: number): MachineStep | null {
  const own = ownSteps(ctx.db).find((s) => s.role === role);
  if ((own?.revision ?? 0) !== revision) refuse('STALE', { what: 'machineStep' });
  if (!own) return null;
  const { revision: _seen, ...step } = own;
  return step;
}

function save(ctx: WriteCtx, step: MachineStep): void {
  saveStep(ctx.db, step);
  ctx.changed(`step:${step.role}`, ...Object.keys(step));
}

/**
 * Fits a step's removal rate to what the shop's own test spots really took, through the origin, with its standard
 * error. Spots tried with another pad or speed than the step now has are still counted at the step's geometry.
 * @throws SPOTS_TOO_FEW below two measured spots
 * @throws SPOTS_ABSURD when they would make a step that no paint allows: a slip in what was noted as taken
 * @throws PAD_OVERHANGS when the step's pad is wider than a section
 * @throws STALE when the step was changed since it was seen
 */
export function refitStep(
  ctx: WriteCtx,
  input: In<'paint.refitStep'>,
): { readonly tenthUmPerKs: number; readonly errorPerKs: number; readonly n: number } {
  const step = needSeen(ctx, input.role, input.revision) ?? DEFAULT_STEPS[input.role];
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
  save(ctx, fitted.data);
  return { ...rate, n: fit.n };
}
