import type { ReactNode } from 'react';
import type { JobId, StageId } from '#core/shared/ids.ts';
import type { Ppm } from '#core/shared/units.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './jobs.module.css';

/** Shares that somebody names instead of the reckoned ones. */
export type Named = ReadonlyMap<StageId, Ppm>;

/** What stopping now would bill of each stage and by what that is reckoned; any share can be named instead. */
export function StopShares(props: {
  readonly jobId: JobId;
  readonly named: Named;
  readonly onChange: (named: Named) => void;
}): ReactNode {
  const t = useText();
  const asked = useQuery('bookings.sharesIfStopped', { jobId: props.jobId });
  function name(stageId: StageId, percent: number | null): void {
    const next = new Map(props.named);
    if (percent === null) next.delete(stageId);
    else next.set(stageId, Math.round(percent * 10_000) as Ppm);
    props.onChange(next);
  }
  if (!asked.data) return asked.loading ? <Waiting /> : <Refusal refusal={asked.error} />;
  return (
    <section aria-label={t('jobs.shares')}>
      <Head level={3} title={t('jobs.shares')} />
      <p className="t1 quiet">{t('jobs.sharesNote')}</p>
      <div className={css['shares']}>
        {asked.data.map((s) => {
          const named = props.named.get(s.stageId);
          return (
            <NumberField
              key={s.stageId}
              label={t(`word.stage.${s.kind}`)}
              hint={t(`jobs.share.${named === undefined ? s.basis : 'named'}`)}
              unit="%"
              digits={1}
              step={5}
              min={0}
              max={100}
              value={Math.floor((named ?? s.sharePpm) / 1000) / 10}
              onChange={(percent) => name(s.stageId, percent)}
            />
          );
        })}
      </div>
    </section>
  );
}
