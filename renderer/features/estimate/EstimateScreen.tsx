import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, hoursRange, money, percent } from '#core/shared/text/format.ts';
import { when } from '#core/shared/text/when.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Caution, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { AskForm } from './AskForm.tsx';
import css from './estimate.module.css';
import { HoursHead } from './HoursHead.tsx';
import { LimitList } from './LimitList.tsx';
import { SandingOptions } from './SandingOptions.tsx';
import { SpotNote } from './SpotNote.tsx';
import { MaterialTable, StageTable } from './StageTable.tsx';
import { StairStrip } from './StairStrip.tsx';
import { TestSpotForm } from './TestSpotForm.tsx';

/** The estimate of a job: hours with their range, stages, materials, price, limits, and the stair to choose on. */
export function EstimateScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] as JobId;
  const found = useQuery('estimate.ofJob', { jobId });
  if (found.data === undefined)
    return (
      <Place label={t('estimate.title')}>
        {found.error ? <Refusal refusal={found.error} /> : <Waiting />}
      </Place>
    );
  const newest = found.data[0] ?? null;
  return (
    <Place label={t('estimate.title')} columns="left">
      <Column label={t('estimate.title')}>
        <Head level={1} title={t('estimate.title')} />
        <Stack gap={3}>
          <JobLine jobId={jobId} />
          {newest ? <HoursHead estimate={newest} /> : <Empty title={t('estimate.none')} />}
          <SpotNote versions={found.data} />
          {newest ? <AboveCeiling jobId={jobId} price={newest.price} /> : null}
          <Honesty />
          <AskForm key={newest?.id ?? 'none'} jobId={jobId} newest={newest} />
          {found.data.length > 1 ? <Earlier versions={found.data.slice(1)} /> : null}
        </Stack>
      </Column>
      {newest ? <Details jobId={jobId} newest={newest} /> : null}
    </Place>
  );
}

/** Whose car and which job this is, and the way back to it. */
function JobLine(props: { readonly jobId: JobId }): ReactNode {
  const t = useText();
  const job = useQuery('bookings.job', { jobId: props.jobId }).data;
  const car = job ? [job.vehicle.makeModel, job.vehicle.colour, job.vehicle.plate].filter(Boolean) : [];
  if (!job) return null;
  return (
    <p>
      <strong>{job.customer.name}</strong>
      <br />
      <LinkTo quiet to={`/jobs/${job.id}`}>
        {t('jobs.number', { number: job.number })}
      </LinkTo>{' '}
      <span className="quiet">{car.join(', ')}</span>
    </p>
  );
}

/** The ceiling a customer names is with tax: a price before tax is held against it on the quote. */
function AboveCeiling(props: { readonly jobId: JobId; readonly price: EstimateView['price'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const job = useQuery('bookings.job', { jobId: props.jobId }).data;
  const { totalMinor, taxIncluded } = props.price;
  const ceiling = job?.ceilingMinor ?? null;
  if (!job || ceiling === null || !taxIncluded || totalMinor <= ceiling) return null;
  const above = money(manner, totalMinor - ceiling);
  return (
    <Caution>
      {t('quote.estimateAbove', { above, ceiling: money(manner, ceiling), name: job.customer.name })}
    </Caution>
  );
}

function Details(props: { readonly jobId: JobId; readonly newest: EstimateView }): ReactNode {
  const { jobId, newest } = props;
  const t = useText();
  const look = useQuery('paint.inspectionOf', { jobId });
  const body = look.data?.body;
  return (
    <Column label={t('estimate.stages')} divided>
      <div className={css['details']}>
        <Stack gap={2}>
          <Head title={t('estimate.stages')} />
          <StageTable jobId={jobId} newest={newest} />
          <LimitList limits={newest.limits} body={body} />
          {body ? <SandingOptions jobId={jobId} body={body} /> : null}
        </Stack>
        <Stack gap={3}>
          {look.data ? (
            <TestSpotForm jobId={jobId} body={look.data.body} panels={look.data.panels.map((p) => p.panel)} />
          ) : null}
          <MaterialTable estimate={newest} />
        </Stack>
      </div>
      <StairStrip key={newest.id} jobId={jobId} newest={newest} body={body ?? 'saloon'} />
    </Column>
  );
}

function Earlier(props: { readonly versions: readonly EstimateView[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <>
      <Head title={t('estimate.earlier')} level={2} />
      <List label={t('estimate.earlier')}>
        {props.versions.map((e) => (
          <Item key={e.id}>
            <span className="num">
              {t('estimate.version', { version: e.version })}: {hours(manner, e.hours.p50Min).value} h{' '}
              {hoursRange(manner, e.hours.p20Min, e.hours.p80Min)}, {money(manner, e.price.totalMinor)},{' '}
              {when(manner, e.madeMs, Date.now())}
            </span>
          </Item>
        ))}
      </List>
    </>
  );
}

/** How often the 80 % point held, beside the 80 % that it aims at; where there is no past, that. */
function Honesty(): ReactNode {
  const t = useText();
  const manner = useManner();
  const learned = useQuery('estimate.learning', { rows: 0 }).data;
  if (!learned) return null;
  if (learned.stagesSeen === 0) return <p className="t1 quiet">{t('estimate.noHistory')}</p>;
  if (learned.withinP80Ppm === null) return null;
  const share = percent(manner, learned.withinP80Ppm / 1_000_000).value;
  return <p className="t1 quiet">{t('estimate.coverage', { percent: share })}</p>;
}
