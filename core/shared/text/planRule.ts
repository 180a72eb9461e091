import type { PlanFault } from '../views/plan.ts';
import type { StageKind } from '../vocabulary.ts';
import type { TextKey } from './en.ts';
import { hours, lasting } from './format.ts';
import type { Manner } from './manner.ts';
import type { TextValues } from './say.ts';
import { dayTimeFrom } from './when.ts';

type Say = (key: TextKey, values?: TextValues) => string;

/** What a sentence chooses by where it has nothing to name. */
const NONE = 'none';

/** A broken rule as a sentence, with the times as the shop says them; those of other weeks, seen from `nowMs`, with their date. */
export function ruleSentence(
  t: Say,
  manner: Manner,
  fault: Pick<PlanFault, 'rule' | 'words'>,
  nowMs: number,
): string {
  const { stage, before, otherStage, ownStage, ...words } = fault.words;
  const gapMin = Number(words['gapMin'] ?? 0);
  const gap = gapMin < 120 ? lasting(manner, gapMin) : hours(manner, gapMin);
  const at = (name: string): string => {
    const min = words[name];
    return min === undefined ? '' : dayTimeFrom(manner, Number(min) * 60_000, nowMs);
  };
  return t(`bays.rule.${fault.rule}`, {
    ...{ who: '', bay: '', person: '', other: '', beside: '', ownFor: '' },
    sure: NONE,
    ...words,
    stage: named(t, stage),
    before: named(t, before),
    otherStage: named(t, otherStage) || NONE,
    ownStage: named(t, ownStage) || NONE,
    gap: `${gap.value} ${gap.unit}`,
    ...{ from: at('fromMin'), until: at('untilMin'), at: at('atMin'), end: at('endMin') || NONE },
    ...{ ownFrom: at('ownFromMin'), ownUntil: at('ownUntilMin') },
    ...{ ready: at('readyMin'), new: at('newMin') },
  });
}

function named(t: Say, stage: string | number | undefined): string {
  return stage && stage !== NONE ? t(`word.stage.${stage as StageKind}`) : '';
}
