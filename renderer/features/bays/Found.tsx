import type { ReactNode } from 'react';
import { hours, lasting } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { ReplanView } from '#core/shared/views/plan.ts';
import type { PlanScore } from '#core/shared/views/planScore.ts';
import { useManner, useText } from '../../bridge/texts.tsx';

/** Minutes late as people say them. */
export function lateText(manner: Manner, minutes: number): string {
  return amountText(minutes < 120 ? lasting(manner, minutes) : hours(manner, minutes));
}

/** What the look found, in words: how late before and after, how little late anything could be, whose promise changes. */
export function Found(props: { readonly view: ReplanView }): ReactNode {
  const { view } = props;
  const t = useText();
  const manner = useManner();
  const { before, after } = view;
  const words = {
    ...{ behind: before.behind, broken: before.broken },
    moved: view.moved.length,
    lateMin: after.lateMin,
    before: lateText(manner, before.lateMin),
    after: lateText(manner, after.lateMin),
    bound: lateText(manner, view.bound.lateMin),
  };
  const stuck = before.behind > 0 ? 'behind' : before.broken > 0 ? 'broken' : 'found';
  // Minutes of plans that cannot come true are not held against anything.
  const weighed = {
    holds: stuck === 'found' ? 'yes' : 'no',
    before: lateText(manner, before.weighedMin),
    after: lateText(manner, after.weighedMin),
    bound: lateText(manner, view.bound.weighedMin),
  };
  const said = view.moved.length === 0 ? 'none' : stuck;
  const changed = view.moved.filter((m) => m.needsConsent).length;
  return (
    <p>
      {t(`bays.replan.${said}`, words)}{' '}
      {isWeighed(before) || isWeighed(after) ? t('bays.replan.weighed', weighed) : null}{' '}
      {view.proved === 'no' ? null : t(`bays.replan.proved.${view.proved}`)}{' '}
      {view.moved.length > 0 ? t('bays.replan.promises', { count: changed }) : null}
    </p>
  );
}

/** Whether an hour late of some job counts for more than one. */
function isWeighed(score: PlanScore): boolean {
  return score.weighedMin !== score.lateMin;
}
