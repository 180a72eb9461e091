import { type ReactNode, useEffect } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, hoursRange, money, percent } from '#core/shared/text/format.ts';
import { exact, when } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { HandFacts } from '#core/shared/views/bookings.ts';
import { layDownOrPickUp, letGo, takeInHand, useHand } from '../bridge/inHand.ts';
import { useQuery } from '../bridge/queries.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import { LinkButton } from '../ui/Button.tsx';
import { Figure } from '../ui/Figure.tsx';
import { useShortcuts } from '../ui/shortcuts.ts';
import css from './Frame.module.css';

/** The job in hand on its strip of tape, the facts chalked beside it, those laid down to the right. */
export function HandStrip(): ReactNode {
  const t = useText();
  const { current, laidDown } = useHand();
  const asked = current === null ? laidDown : [current, ...laidDown];
  const facts = useQuery('bookings.hand', { jobIds: [...asked] }, { when: asked.length > 0, keep: true });
  useShortcuts({ 'Ctrl+J': layDownOrPickUp });
  const known = facts.data;
  // What is kept on the strip meanwhile answers an older question: it does not know the job taken just now.
  const settled = useQuery('bookings.hand', { jobIds: [...asked] }, { when: asked.length > 0 });
  useEffect(() => {
    if (!settled.data || settled.loading) return;
    for (const id of asked) if (!settled.data.some((job) => job.jobId === id)) letGo(id);
  }, [settled.data, settled.loading, asked]);
  if (asked.length === 0) return null;
  const of = (id: JobId): HandFacts | undefined => known?.find((job) => job.jobId === id);
  const held = current ? of(current) : undefined;
  return (
    <section className={css['hand']} aria-label={t('ui.hand.label')}>
      {held ? <Held job={held} /> : null}
      <div className={css['down']}>
        {laidDown.length > 0 ? <span className="dusty">{t('ui.hand.laidDown')}</span> : null}
        {laidDown.map((id) => (
          <button key={id} type="button" className={`${css['chip']} cut`} onClick={() => takeInHand(id)}>
            {lastName(of(id)?.customer ?? '')}
          </button>
        ))}
        <LinkButton quiet onPress={layDownOrPickUp}>
          {held ? t('ui.hand.layDown') : t('ui.hand.pickUp')}
        </LinkButton>
      </div>
    </section>
  );
}

function lastName(name: string): string {
  return name.trim().split(/\s+/).at(-1) ?? name;
}

function Held(props: { readonly job: HandFacts }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  const promise = job.pickUpMin === null ? null : job.pickUpMin * 60_000;
  return (
    <>
      <a className={css['tape']} href={`#/jobs/${job.jobId}`}>
        <span>{t('ui.hand.inHand')}</span>
        <b className="cut">{job.customer}</b>
      </a>
      <dl className={css['facts']}>
        <div data-fact="vehicle">
          <dd className="cut">
            {job.vehicle}
            <span className="unit">{[job.colour, job.year].filter(Boolean).join(', ')}</span>
          </dd>
        </div>
        {promise === null ? null : (
          <div data-fact="promise">
            <dt>{t(job.forVisit ? 'ui.hand.visit' : 'ui.hand.promise')}</dt>
            <dd className={`num ${job.late ? 'lamp strong' : ''}`} title={exact(manner, promise)}>
              {when(manner, promise, Date.now())}
              {job.promisedPpm === null || job.forVisit ? null : (
                <span className="unit">
                  {t('ui.hand.whenBooked', { share: percent(manner, job.promisedPpm / PPM).value })}
                </span>
              )}
            </dd>
          </div>
        )}
        {job.p50Min === 0 ? null : (
          <div data-fact="hours">
            <dt>{t('ui.hand.hours')}</dt>
            <dd>
              <Figure amount={hours(manner, job.p50Min)} range={hoursRange(manner, job.p20Min, job.p80Min)} />
            </dd>
          </div>
        )}
        {job.money === null ? null : (
          <div data-fact="money">
            <dt>{t(`ui.hand.${job.money.kind}`)}</dt>
            <dd className="num">{money(manner, job.money.minor)}</dd>
          </div>
        )}
      </dl>
    </>
  );
}
