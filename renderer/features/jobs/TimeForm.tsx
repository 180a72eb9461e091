import { type ReactNode, useState } from 'react';
import type { PersonId } from '#core/shared/ids.ts';
import type { EpochMs } from '#core/shared/units.ts';
import type { StageView, WorkView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DateTimeField } from '../../ui/DateFields.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './jobs.module.css';

/** Types in a stretch of work that nobody had clocked, or corrects one that has ended. */
export function TimeForm(props: {
  readonly stage: StageView;
  /** The stretch to correct; null = a new one. */
  readonly work: WorkView | null;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const me = useMe();
  const { stage, work } = props;
  const [personId, setPersonId] = useState<PersonId | null>(work?.person.id ?? null);
  const [startMs, setStartMs] = useState<EpochMs | null>(work?.startMs ?? null);
  const [endMs, setEndMs] = useState<EpochMs | null>(work?.endMs ?? null);
  const type = useCommand('bookings.typeTime');
  const correct = useCommand('bookings.correctTime');
  const who = personId ?? me?.personId ?? null;
  const whole = who !== null && startMs !== null && endMs !== null;
  async function save(): Promise<void> {
    if (who === null || startMs === null || endMs === null) return;
    const times = { personId: who, startMs, endMs };
    const done = work
      ? await correct.run({ workId: work.id, change: { to: 'times', ...times } })
      : await type.run({ stageId: stage.id, ...times });
    if (done.ok) props.onDone();
  }
  return (
    <section className={css['inset']} aria-label={t(work ? 'jobs.time.correct' : 'jobs.time.type')}>
      <div className={css['times']}>
        <WorkerSelect work={work} value={who} onChange={setPersonId} />
        <DateTimeField label={t('jobs.time.from')} value={startMs} onChange={setStartMs} />
        <DateTimeField label={t('jobs.time.to')} value={endMs} onChange={setEndMs} />
      </div>
      <Refusal refusal={type.refusal ?? correct.refusal} />
      <Row>
        <Button
          kind="go"
          busy={type.busy || correct.busy}
          why={whole ? undefined : t('jobs.time.missing')}
          onPress={() => void save()}
        >
          {t('jobs.time.keep')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('jobs.back')}</LinkButton>
      </Row>
    </section>
  );
}

/** Whoever works here today, and the one the stretch is of although they have left. */
function WorkerSelect(props: {
  readonly work: WorkView | null;
  readonly value: PersonId | null;
  readonly onChange: (id: PersonId) => void;
}): ReactNode {
  const t = useText();
  const here = useQuery('access.here', {}).data?.people ?? [];
  const gone = props.work && !here.some((p) => p.id === props.work?.person.id) ? [props.work.person] : [];
  return (
    <Select<PersonId>
      label={t('card.who')}
      options={[...here, ...gone].map((p) => ({ value: p.id, label: p.name }))}
      value={props.value}
      onChange={props.onChange}
    />
  );
}
