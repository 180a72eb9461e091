import { sectionTime } from '../../estimate/rules/sections.ts';
import type { MachineStep } from '../../shared/machineStep.ts';
import type { ShopSettings } from '../../shared/settings.ts';
import { contactSeconds } from './removal.ts';

type Way = ShopSettings['estimate'];

/** True when the step's pad is no wider than a section. */
export function padFits(step: MachineStep, way: Way): boolean {
  return step.padDiameterMm <= Math.min(way.sectionLengthMm, way.sectionWidthMm);
}

/** Contact seconds of a whole section as the shop's settings lay it out, at the step's own speed and pressure. */
export function scaledContact(passes: number, step: MachineStep, way: Way): number {
  const cut = step.role === 'heavyCut' || step.role === 'mediumCut';
  const armSpeedMmS = cut ? way.cutSpeedMmS : way.refineSpeedMmS;
  const section = { alongMm: way.sectionLengthMm, acrossMm: way.sectionWidthMm } as const;
  const over = { passes, armSpeedMmS, padDiameterMm: step.padDiameterMm } as const;
  const still = { applyS: 0, wipeS: 0, cleanS: 0, cleanEvery: 1 } as const;
  const { pathMm } = sectionTime({ ...section, ...over, ...still, overlapPpm: way.overlapPpm });
  const scale = (step.speedRpm / step.referenceRpm) * (step.pressureN / step.referenceN);
  return scale * contactSeconds({ ...section, ...over, pathMm });
}

/** Film that a test spot took where it was tried, 0.1 µm: as it was read, else what its passes usually take. */
export function spotFilm(
  spot: { readonly passes: number; readonly removedTenthUm: number | null },
  step: MachineStep,
  way: Way,
): number {
  if (spot.removedTenthUm !== null) return spot.removedTenthUm;
  if (!padFits(step, way)) return 0;
  return Math.round((step.tenthUmPerKs * scaledContact(spot.passes, step, way)) / 1000);
}
