import { lasting } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { ruleSentence } from '#core/shared/text/planRule.ts';
import { dayOf, dayTimeFrom } from '#core/shared/text/when.ts';
import type { ConflictView } from '#core/shared/views/bays.ts';
import type { PlanRule } from '#core/shared/views/plan.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';

/** What happened against the plan, in words. */
export function conflictSentence(t: Say, manner: Manner, conflict: ConflictView, nowMs: number): string {
  const { stage, rule, untilMin: _, ...words } = conflict.words;
  const over = lasting(manner, conflict.minutes);
  // Pads are short on a day, often weeks ahead: its midnight is no hour that anybody agreed.
  const said = conflict.kind === 'padsMissing' ? dayOf : dayTimeFrom;
  return t(`bays.conflict.${conflict.kind}`, {
    ...{ who: '', bay: '', other: '', item: '', needs: 0, has: 0, help: '' },
    ...words,
    at: said(manner, conflict.atMin * 60_000, nowMs),
    time: `${over.value} ${over.unit}`,
    stage: stage ? t(`word.stage.${stage as StageKind}`) : '',
    rule: rule === undefined ? '' : ruleSentence(t, manner, { ...conflict, rule: rule as PlanRule }, nowMs),
  });
}

/** Its place is taken by another car: no more than that is the matter. */
export function takenBy(broken: ConflictView): boolean {
  return broken.words['rule'] === 'bayTaken';
}

/** That a plan does not hold, in words; where something happened to its car, what that has come to. */
export function besides(
  t: Say,
  manner: Manner,
  happened: ConflictView | undefined,
  broken: ConflictView,
  nowMs: number,
): string {
  if (!happened) return conflictSentence(t, manner, broken, nowMs);
  if (happened.kind !== 'lateArrival' || !takenBy(broken)) return t('bays.conflict.planToo');
  const { bay = '', other = '', untilMin = 0 } = broken.words;
  return t('bays.conflict.takenToo', {
    bay,
    other,
    until: dayTimeFrom(manner, Number(untilMin) * 60_000, nowMs),
  });
}
