import { type ReactNode, useRef } from 'react';
import type { Progress } from '#core/shared/bridge.ts';
import { count } from '#core/shared/text/format.ts';
import type { ReplanStep } from '#core/shared/views/planScore.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { lateText } from './Found.tsx';
import css from './panel.module.css';

/** The search as it goes: time used, the best plan so far, and the least lateness there can be. */
export function Searching(props: {
  readonly progress: Progress | null;
  readonly onStop: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const began = useRef(performance.now());
  const { progress } = props;
  const step = (progress?.note ?? null) as ReplanStep | null;
  const seconds = count(manner, (performance.now() - began.current) / 1000, 1);
  return (
    <>
      <span aria-busy="true">{t('bays.replan.working')}</span>
      <progress
        className={css['searching']}
        max={progress?.total ?? 1}
        value={progress?.done ?? 0}
        aria-label={t('bays.replan.working')}
      />
      {step ? (
        <span className="quiet num">
          {t('bays.replan.soFar', {
            seconds,
            late: lateText(manner, step.best.lateMin),
            bound: lateText(manner, step.bound.lateMin),
          })}
        </span>
      ) : null}
      <LinkButton onPress={props.onStop}>{t('bays.replan.stop')}</LinkButton>
    </>
  );
}
