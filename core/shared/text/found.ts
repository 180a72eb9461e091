import type { FoundView } from '../views/paint.ts';
import { depthText } from './format.ts';
import { amountText, type Manner } from './manner.ts';
import { say } from './say.ts';

/** What was found in one piece: `swirls, moderate, 0.5–1.2 µm`; without a depth where that says nothing. */
export function foundText(manner: Manner, { defect, severity, depth }: FoundView): string {
  const deep = depthText(manner, depth);
  const words = [`word.defect.${defect}`, `word.severity.${severity}`] as const;
  const said = words.map((key) => say(manner.locale, key));
  return [...said, ...(deep ? [amountText(deep)] : [])].join(', ');
}
