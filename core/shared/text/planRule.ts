import type { PlanFault } from '../views/bays.ts';
import type { StageKind } from '../vocabulary.ts';
import type { TextKey } from './en.ts';
import type { Manner } from './manner.ts';
import type { TextValues } from './say.ts';
import { dayTime } from './when.ts';

type Say = (key: TextKey, values?: TextValues) => string;

/** A broken rule as a sentence, with the times as the shop says them. */
export function ruleSentence(t: Say, manner: Manner, fault: Pick<PlanFault, 'rule' | 'words'>): string {
  const { untilMin, atMin, stage, ...words } = fault.words;
  const at = (min: string | number | undefined): string =>
    min === undefined ? '' : dayTime(manner, Number(min) * 60_000);
  return t(`bays.rule.${fault.rule}`, {
    ...{ who: '', bay: '', person: '', other: '' },
    ...words,
    stage: stage ? t(`word.stage.${stage as StageKind}`) : '',
    until: at(untilMin),
    at: at(atMin),
  });
}
