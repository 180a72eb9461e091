import type { DepthRange } from '../../shared/depths.ts';
import type { Defect, PaintHardness } from '../../shared/vocabulary.ts';
import type { GainFinding } from './gain.ts';
import type { PanelSize } from './panels.ts';
import { HARDNESS } from './panelWork.ts';

/** Film that the sanding alone takes, 0.1 µm, as deep as the damage may go, and its minutes before calibration. */
export type SandingWork = DepthRange & { readonly minutes: number };

/** Damage with sharp edges that is sanded flat; everything shallower is polished. */
const SANDABLE: readonly Defect[] = ['etching', 'deepScratches'];

/** Minutes to set a panel up and per square metre, both grades; deeper than 6 µm takes longer. @source common practice, no source */
const SAND = { perPanel: 10, perM2: 45, usualTenthUm: 60 } as const;

/** Abrasives per square metre, discs or pieces of paper of that size. @source common practice, no source */
export const SAND_PER_M2 = { sandingDisc: 6, fineSandingDisc: 4, shampooUl: 5000 } as const;

export function isSandable(defect: Defect): boolean {
  return SANDABLE.includes(defect);
}

/**
 * How deep wet sanding would go on a panel: the deepest of its damage that polishing does not reach. `polished` is the
 * most that polishing may and can take, 0.1 µm. Null where polishing reaches it all: nothing is sanded needlessly.
 */
export function sandingOf(findings: readonly GainFinding[], polished: number): DepthRange | null {
  const deep = findings.filter((f) => isSandable(f.defect) && f.depth.high > polished);
  if (deep.length === 0) return null;
  return { low: Math.max(...deep.map((f) => f.depth.low)), high: Math.max(...deep.map((f) => f.depth.high)) };
}

/** Time to sand a whole panel to a depth. Deeper damage and harder paint never shorten it. */
export function sandingWork(size: PanelSize, depth: DepthRange, hardness: PaintHardness): SandingWork {
  const m2 = size.areaCm2 / 10_000;
  const deeper = Math.max(1, depth.high / SAND.usualTenthUm);
  return { ...depth, minutes: (SAND.perPanel + SAND.perM2 * m2 * deeper) * HARDNESS[hardness] };
}
