import { depthOf } from '../../shared/depths.ts';
import type { StatedCondition, Wish } from '../../shared/views/estimate.ts';
import type { Felt } from '../../shared/views/paint.ts';
import type { Defect, Level, PanelId, Severity } from '../../shared/vocabulary.ts';
import type { GainFinding } from './gain.ts';

/** Added variance (log) while nobody has seen the paint, shared by all stages. @source common practice, no source */
export const UNSEEN_VARIANCE = 0.09;

type Guess = { readonly defect: Defect; readonly severity: Severity };

/** What a car of a told condition usually shows. @source common practice, no source */
const GUESSES: Readonly<
  Record<StatedCondition, { readonly findings: readonly Guess[]; readonly felt: Felt }>
> = {
  good: { findings: [{ defect: 'swirls', severity: 'light' }], felt: 'light' },
  worn: { findings: [{ defect: 'swirls', severity: 'moderate' }], felt: 'moderate' },
  neglected: {
    findings: [
      { defect: 'swirls', severity: 'heavy' },
      { defect: 'oxidation', severity: 'moderate' },
    ],
    felt: 'heavy',
  },
  unknown: { findings: [{ defect: 'swirls', severity: 'moderate' }], felt: 'moderate' },
};

/** Findings assumed on every panel before anybody has looked. */
export function assumedFindings(condition: StatedCondition): readonly GainFinding[] {
  return GUESSES[condition].findings.map((f) => ({ ...f, depth: depthOf(f.defect, f.severity) }));
}

export function assumedFelt(condition: StatedCondition): Felt {
  return GUESSES[condition].felt;
}

/** Level every panel starts from for a wish. `full` takes what the damage asks for. */
export function levelForWish(wish: Wish, severity: Severity | null): Level {
  switch (wish) {
    case 'interior':
      return 'leave';
    case 'clean':
    case 'protect':
      return 'washOnly';
    case 'oneStage':
      return severity === null ? 'washOnly' : 'oneStage';
    case 'twoStage':
      return severity === null ? 'washOnly' : 'twoStage';
    case 'full':
      return severity === null ? 'washOnly' : severity === 'light' ? 'oneStage' : 'twoStage';
  }
}

/** Bumpers, sills, mirrors and pillars are kept to one stage unless somebody chooses more. */
export function isMinorPanel(panel: PanelId): boolean {
  return /^(fb|rb|.(sl|ap|cr|cp|mi))$/.test(panel);
}
