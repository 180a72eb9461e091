import type { ReactNode } from 'react';
import { startsUnagreed } from '#core/shared/agreed.ts';
import type { JobId } from '#core/shared/ids.ts';
import { hours, hoursRange, percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { exact, when } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { takeInHand, useHand } from '../../bridge/inHand.ts';
import { useSureNow } from '../../bridge/promises.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { type Params, queryOf, usePath } from '../../ui/router.ts';
import { Caution, Refusal, Waiting } from '../../ui/States.tsx';
import { ENDS } from './EndForm.tsx';
import { EndJob } from './EndJob.tsx';
import { JobMoney } from './JobMoney.tsx';
import { JobRecords } from './JobRecords.tsx';
import { JobSteps } from './JobSteps.tsx';
import css from './jobs.module.css';
import { StageList } from './StageList.tsx';
import { Wished } from './Wished.tsx';

/** One job: what it is, what comes next, its stages planned and worked, its money and its records. */
export function JobScreen(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] as JobId;
  const end = queryOf(usePath()).get('end');
  const asksEnd = ENDS.find((known) => known === end);
  const asked = useQuery('bookings.job', { jobId });
  if (!asked.data)
    return (
      <Place label={t('ui.place.jobs')}>
        {asked.loading ? <Waiting /> : <Refusal refusal={asked.error} />}
      </Place>
    );
  const job = asked.data;
  return (
    <Place label={t('jobs.number', { number: job.number })} columns="right">
      <Column>
        <JobHead job={job} />
        <JobSteps job={job} />
        <StageList job={job} />
      </Column>
      <Column divided>
        <Stack gap={4}>
          <JobMoney job={job} />
          <JobRecords job={job} />
          <EndJob job={job} asked={asksEnd} />
        </Stack>
      </Column>
    </Place>
  );
}

function JobHead(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const { job } = props;
  const { vehicle } = job;
  const hand = useHand().current;
  const facts = [vehicle.makeModel, vehicle.colour, vehicle.year ?? '', vehicle.plate].filter(
    (f) => f !== '',
  );
  return (
    <header className={css['head']}>
      <Head
        level={1}
        title={job.customer.name}
        note={`${t('jobs.number', { number: job.number })}, ${facts.join(', ')}`}
      >
        {hand === job.id ? null : (
          <LinkButton onPress={() => takeInHand(job.id)}>{t('jobs.hand')}</LinkButton>
        )}
      </Head>
      <p>
        <strong>{t(`word.jobState.${job.state}`)}</strong>{' '}
        <span className="quiet">
          {t(`jobs.purpose.${job.purpose}`)}, {t(`jobs.basis.${job.planBasis}`)}
          {job.redoOf ? `, ${t('jobs.redoOf', { number: job.redoOf.number })}` : null}
          {job.stoppedHalfWay ? `, ${t('jobs.stopped', { reason: job.endReason })}` : null}
        </span>
      </p>
      {isOver(job) ? <OverBecause job={job} /> : <Planned job={job} />}
      <Wished job={job} />
      {startsUnagreed(job) ? <Caution>{t('jobs.unagreed')}</Caution> : null}
      {job.conflicts.map((c) => (
        <Caution key={JSON.stringify(c)}>
          {c.kind === 'twoAtOnce'
            ? t('jobs.conflict.twoAtOnce', { person: c.person.name, number: c.otherJobNumber })
            : c.kind === 'overrun'
              ? t('jobs.conflict.overrun', { stage: t(`word.stage.${c.stage}`), min: c.overMin })
              : t('jobs.conflict.cureCutShort', { min: c.missingMin })}
        </Caution>
      ))}
    </header>
  );
}

/** The car never came, or will not: no hour is owed and no hours are planned any more. */
function isOver(job: JobView): boolean {
  return job.state === 'cancelled' || job.state === 'noShow';
}

function OverBecause(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { endedMs, endReason } = props.job;
  if (endedMs === null) return null;
  const at = when(manner, endedMs, Date.now());
  return <p>{t(endReason === '' ? 'jobs.over' : 'jobs.overBecause', { when: at, reason: endReason })}</p>;
}

/** The promise, and the hours planned and worked. */
function Planned(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  return (
    <>
      <Promised job={job} />
      <p>
        <Figure
          amount={hours(manner, job.hours.p50Min)}
          range={hoursRange(manner, job.hours.p20Min, job.hours.p80Min)}
          size={3}
        />{' '}
        <span className="quiet">
          {t('jobs.actual')} {amountText(hours(manner, job.hours.workedMin))}
        </span>
      </p>
    </>
  );
}

/** When the car comes while it is awaited, the hour that the shop owes it by, how sure that is now, and how sure it was when it was agreed. */
function Promised(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { promise, id } = props.job;
  const sureNow = useSureNow(promise.promisedPpm !== null && !promise.forVisit)(id);
  if (promise.pickUpMin === null) return null;
  const at = promise.pickUpMin * 60_000;
  const share = (ppm: number): string => percent(manner, ppm / PPM).value;
  return (
    <p className={promise.late ? 'lamp' : undefined} title={exact(manner, at)}>
      <Comes job={props.job} />
      {t(promise.forVisit ? 'jobs.visit' : 'jobs.promise')}{' '}
      <strong className="num">{when(manner, at, Date.now())}</strong>{' '}
      {sureNow === null ? null : t('jobs.sureNow', { share: share(sureNow) })}{' '}
      {promise.promisedPpm === null || promise.forVisit ? null : (
        <span className="quiet">
          {t('jobs.whenBooked', { share: share(promise.promisedPpm) })}
          {promise.bold ? `, ${t('jobs.bold')}` : null}
        </span>
      )}{' '}
      {promise.late ? t('jobs.late') : null}
    </p>
  );
}

function Comes({ job }: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { dropOffMin } = job.promise;
  if (job.state !== 'booked' || dropOffMin === null) return null;
  const at = dropOffMin * 60_000;
  return (
    <span title={exact(manner, at)}>
      {t('jobs.comes')} <strong className="num">{when(manner, at, Date.now())}</strong>,{' '}
    </span>
  );
}
