import type { ReactNode } from 'react';
import { count, hoursMinutes } from '#core/shared/text/format.ts';
import { sayStory } from '#core/shared/text/sayStory.ts';
import type { HonestyView } from '#core/shared/views/figures.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import css from './outliers.module.css';

/** Stages furthest from what was said, each with everything that was recorded about it. */
export function Outliers(props: {
  readonly view: HonestyView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { outliers } = props.view;
  return (
    <section aria-label={t('figures.outliers')}>
      <Head title={t('figures.outliers')} note={t('figures.outliersNote')}>
        <LinkButton
          quiet
          busy={props.busy}
          label={t('figures.csvOf', { title: t('figures.outliers') })}
          onPress={props.onCsv}
        >
          {t('figures.csv')}
        </LinkButton>
      </Head>
      <ul className={css['list']}>
        {outliers.map((o) => (
          <li key={o.stageId}>
            <p>
              <a href={`#/jobs/${o.jobId}`}>
                {t('figures.outlierJob', { number: o.jobNumber, stage: t(`word.stage.${o.stage}`) })}
              </a>
              <span>{o.person}</span>
              <b>
                {t('figures.outlierHours', {
                  said: hoursMinutes(manner, Math.round(o.p50Min)),
                  took: hoursMinutes(manner, Math.round(o.actualMin)),
                  times: count(manner, o.actualMin / o.p50Min, 1),
                })}
              </b>
            </p>
            <p className={css['story']}>
              {o.story.length === 0
                ? t('figures.story.none')
                : o.story.map((story) => sayStory(t, story)).join(' · ')}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
