import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { when } from '#core/shared/text/when.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDraft } from '../../bridge/drafts.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { DraftNote } from '../../ui/DraftNote.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { go, type Params } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { beginRecord, type CarRecord, type RecordKind, wasWorkedOn } from './carRecord.ts';
import { HandOverList } from './HandOverList.tsx';
import { RecordDamage } from './RecordDamage.tsx';
import { RecordFields } from './RecordFields.tsx';
import css from './record.module.css';

/** Takes the car in. */
export function ArriveScreen(props: { readonly params: Params }): ReactNode {
  return <RecordScreen kind="arrival" jobId={props.params['jobId'] as JobId} />;
}

/** Hands the car over. */
export function HandOverScreen(props: { readonly params: Params }): ReactNode {
  return <RecordScreen kind="handover" jobId={props.params['jobId'] as JobId} />;
}

function RecordScreen(props: { readonly kind: RecordKind; readonly jobId: JobId }): ReactNode {
  const t = useText();
  const asked = useQuery('bookings.job', { jobId: props.jobId });
  if (!asked.data)
    return (
      <Place label={t(`record.${props.kind}`)}>
        {asked.loading ? <Waiting /> : <Refusal refusal={asked.error} />}
      </Place>
    );
  return <RecordForm key={props.jobId} kind={props.kind} job={asked.data} />;
}

/** A signature is for the person who stands there: it is not kept with what was half filled in. */
function useRecord(kind: RecordKind, job: JobView) {
  const miles = useManner().lengthUnit === 'ft';
  const { found, keep, drop } = useDraft<CarRecord>(`${kind}.1.${job.id}`);
  const [record, setRecord] = useState(() => found?.value ?? beginRecord(job, kind, miles));
  const [goesOn, setGoesOn] = useState(found?.atMs);
  function put(part: Partial<CarRecord>): void {
    const next = { ...record, ...part };
    setRecord(next);
    keep({ ...next, strokes: [] });
  }
  function anew(): void {
    drop();
    setGoesOn(undefined);
    setRecord(beginRecord(job, kind, miles));
  }
  return { record, put, goesOn, anew, drop };
}

function RecordForm(props: { readonly kind: RecordKind; readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { kind, job } = props;
  const { record, put, goesOn, anew, drop } = useRecord(kind, job);
  const [things, setThings] = useState(() => wasWorkedOn(job));
  const arrive = useCommand('bookings.arrive');
  const handOver = useCommand('bookings.handOver');
  const refusal = arrive.refusal ?? handOver.refusal;
  async function save(lowerMileage: 'ask' | 'right' = 'ask'): Promise<void> {
    const damage = record.damage.filter((d) => d.note.trim() !== '');
    const sent = { jobId: job.id, ...record, damage, lowerMileage };
    const done = kind === 'arrival' ? await arrive.run(sent) : await handOver.run({ ...sent, things });
    if (!done.ok) return;
    drop();
    go(`/jobs/${job.id}`);
  }
  return (
    <Place label={t(`record.${kind}`)}>
      <Column>
        <Head level={1} title={t(`record.${kind}`)} note={`${job.customer.name}, ${job.vehicle.makeModel}`} />
        {goesOn === undefined ? null : (
          <DraftNote
            text={t('ui.draft.goesOn', { at: when(manner, goesOn, Date.now()) })}
            anew={t('ui.draft.anew')}
            onAnew={anew}
          />
        )}
        <div className={css['form']}>
          <div>
            {kind === 'handover' ? <HandOverList job={job} given={things} onGiven={setThings} /> : null}
            <RecordFields record={record} put={put} />
          </div>
          <RecordDamage job={job} record={record} put={put} />
        </div>
        <Stack gap={1}>
          <Refusal refusal={refusal}>
            {refusal?.code === 'MILEAGE_FELL' ? (
              <LinkButton onPress={() => void save('right')}>{t('record.lowerRight')}</LinkButton>
            ) : null}
          </Refusal>
          <Row>
            <Button
              kind="go"
              busy={arrive.busy || handOver.busy}
              why={record.agreedBy.trim() === '' ? t('record.nameFirst') : undefined}
              onPress={() => void save()}
            >
              {t(`record.save.${kind}`)}
            </Button>
            <LinkTo to={`/jobs/${job.id}`}>{t('jobs.back')}</LinkTo>
          </Row>
        </Stack>
      </Column>
    </Place>
  );
}
