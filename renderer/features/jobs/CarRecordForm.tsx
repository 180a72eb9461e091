import { type ReactNode, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { JobId } from '#core/shared/ids.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { AGREED_WAYS, type JobView } from '#core/shared/views/bookings.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place, Row } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { go, type Params } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './jobs.module.css';
import { SignField } from './SignField.tsx';

type Record = Omit<SentFor<'bookings.arrive'>, 'jobId' | 'atMs'>;
type Kind = 'arrival' | 'handover';

/** Takes the car in. */
export function ArriveScreen(props: { readonly params: Params }): ReactNode {
  return <RecordScreen kind="arrival" jobId={props.params['jobId'] as JobId} />;
}

/** Hands the car over. */
export function HandOverScreen(props: { readonly params: Params }): ReactNode {
  return <RecordScreen kind="handover" jobId={props.params['jobId'] as JobId} />;
}

function RecordScreen(props: { readonly kind: Kind; readonly jobId: JobId }): ReactNode {
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

function begin(job: JobView, kind: Kind, miles: boolean): Record {
  const came = job.records.filter((r) => r.kind === 'arrival').at(-1);
  const before = kind === 'handover' ? came : undefined;
  return {
    mileage: before?.mileage ?? null,
    mileageUnit: before?.mileageUnit ?? (miles ? 'mi' : 'km'),
    keyCount: before?.keyCount ?? 1,
    belongings: before?.belongings ?? '',
    damage: before ? [...before.damage] : [],
    picturesRecord: before?.picturesRecord ?? false,
    picturesPublish: before?.picturesPublish ?? false,
    agreedBy: job.customer.name,
    agreedWay: 'signature',
    strokes: [],
    note: '',
  };
}

function RecordForm(props: { readonly kind: Kind; readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { kind, job } = props;
  const [record, setRecord] = useState(() => begin(job, kind, manner.lengthUnit === 'ft'));
  const arrive = useCommand('bookings.arrive');
  const handOver = useCommand('bookings.handOver');
  const put = (part: Partial<Record>): void => setRecord({ ...record, ...part });
  async function save(): Promise<void> {
    const damage = record.damage.filter((d) => d.note.trim() !== '');
    const sent = { jobId: job.id, ...record, damage };
    const done = kind === 'arrival' ? await arrive.run(sent) : await handOver.run(sent);
    if (done.ok) go(`/jobs/${job.id}`);
  }
  return (
    <Place label={t(`record.${kind}`)}>
      <Column>
        <Head level={1} title={t(`record.${kind}`)} note={`${job.customer.name}, ${job.vehicle.makeModel}`} />
        <div className={css['form']}>
          <Fields record={record} put={put} />
          <Damage job={job} record={record} put={put} />
        </div>
        <Refusal refusal={arrive.refusal ?? handOver.refusal} />
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
      </Column>
    </Place>
  );
}

type PartProps = { readonly record: Record; readonly put: (part: Partial<Record>) => void };

function Fields({ record, put }: PartProps): ReactNode {
  const t = useText();
  return (
    <div className={css['fields']}>
      <NumberField
        label={t('record.mileage')}
        value={record.mileage}
        min={0}
        max={9_999_999}
        unit={record.mileageUnit}
        onChange={(mileage) => put({ mileage })}
      />
      <NumberField
        label={t('record.keys')}
        value={record.keyCount}
        min={0}
        max={20}
        onChange={(keys) => put({ keyCount: keys ?? 0 })}
      />
      <div className={css['wide']}>
        <TextField
          label={t('record.belongings')}
          value={record.belongings}
          maxLength={1000}
          onChange={(belongings) => put({ belongings })}
        />
      </div>
      <Check
        label={t('record.picturesRecord')}
        value={record.picturesRecord}
        onChange={(on) => put({ picturesRecord: on, picturesPublish: on && record.picturesPublish })}
      />
      <Check
        label={t('record.picturesPublish')}
        value={record.picturesPublish}
        onChange={(on) => put({ picturesPublish: on, picturesRecord: on || record.picturesRecord })}
      />
      <div className={css['wide']}>
        <TextField
          label={t('record.agreedBy')}
          value={record.agreedBy}
          maxLength={120}
          onChange={(agreedBy) => put({ agreedBy })}
        />
      </div>
      <div className={css['wide']}>
        <Segmented
          label={t('record.agreedWay')}
          value={record.agreedWay}
          onChange={(agreedWay) => put({ agreedWay })}
          options={AGREED_WAYS.map((value) => ({ value, label: t(`record.way.${value}`) }))}
        />
        {record.agreedWay === 'signature' ? (
          <SignField
            strokes={(record.strokes ?? []) as never}
            onChange={(strokes) => put({ strokes: strokes.map((s) => s.map(([x, y]) => [x, y])) })}
          />
        ) : null}
      </div>
      <div className={css['wide']}>
        <TextField
          label={t('record.note')}
          value={record.note ?? ''}
          maxLength={1000}
          lines={2}
          onChange={(note) => put({ note })}
        />
      </div>
    </div>
  );
}

function Damage(props: PartProps & { readonly job: JobView }): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { job, record, put } = props;
  const { body } = job.vehicle;
  const marked = Object.fromEntries(record.damage.map((d) => [d.panel, { state: 'lit' as const }]));
  const change = (at: number, note: string): void =>
    put({ damage: record.damage.map((d, i) => (i === at ? { ...d, note } : d)) });
  function add(panel: PanelId): void {
    if (!record.damage.some((d) => d.panel === panel && d.note === ''))
      put({ damage: [...record.damage, { panel, note: '' }] });
  }
  return (
    <section>
      <Head level={3} title={t('record.damage')} note={t('record.damageHint')} />
      <FlatCar body={body} label={t('record.damage')} look={marked} onPanel={add} />
      {record.damage.map((d, i) => (
        <TextField
          // biome-ignore lint/suspicious/noArrayIndexKey: notes are only added at the end
          key={i}
          label={t('record.damageOn', { panel: panelName(locale, d.panel, body) })}
          value={d.note}
          maxLength={200}
          onChange={(note) => change(i, note)}
        />
      ))}
    </section>
  );
}
