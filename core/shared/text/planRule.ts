import type { PlanFault } from '../views/bays.ts';
import type { StageKind } from '../vocabulary.ts';
import type { TextKey } from './en.ts';
import { hours, lasting } from './format.ts';
import type { Manner } from './manner.ts';
import type { TextValues } from './say.ts';
import { dayTime } from './when.ts';

type Say = (key: TextKey, values?: TextValues) => string;

/** A broken rule as a sentence, with the times as the shop says them. */
export function ruleSentence(t: Say, manner: Manner, fault: Pick<PlanFault, 'rule' | 'words'>): string {
  const { untilMin, atMin, stage, before, ...words } = fault.words;
  const gapMin = Number(words['gapMin'] ?? 0);
  const gap = gapMin < 120 ? lasting(manner, gapMin) : hours(manner, gapMin);
  const at = (min: string | number | undefined): string =>
    min === undefined ? '' : dayTime(manner, Number(min) * 60_000);
  return t(`bays.rule.${fault.rule}`, {
    ...{ who: '', bay: '', person: '', other: '' },
    ...words,
    stage: named(t, stage),
    before: named(t, before),
    gap: `${gap.value} ${gap.unit}`,
    until: at(untilMin),
    at: at(atMin),
  });
}

function named(t: Say, stage: string | number | undefined): string {
  return stage ? t(`word.stage.${stage as StageKind}`) : '';
}
