import type { ReactNode } from 'react';
import type { Progress } from '#core/shared/bridge.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import css from './whatIf.module.css';

/** How far the runs are, and a way to be content with those that are through. */
export function WhatIfRunning(props: {
  readonly progress: Progress | null;
  readonly onStop: () => void;
}): ReactNode {
  const t = useText();
  const { done = 0, total = 1 } = props.progress ?? {};
  // Learning the shop's habits comes before the runs that the answer counts: a share of the way is true of both.
  const percent = Math.floor((done / total) * 100);
  return (
    <div className={css['running']}>
      <span aria-busy="true">{t('whatIf.working')}</span>
      <progress max={total} value={done} aria-label={t('whatIf.working')} />
      {props.progress ? <span className="quiet num">{t('whatIf.soFar', { percent })}</span> : null}
      <LinkButton onPress={props.onStop}>{t('whatIf.stop')}</LinkButton>
    </div>
  );
}
