import { type ReactNode, useState } from 'react';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { ENDS, type End, EndForm } from './EndForm.tsx';

const ACTION = { noShow: 'noShow', cancel: 'cancel', stop: 'stopHalfWay', redo: 'redo' } as const;

/** Ways a job ends other than as planned, each with its reason and, where money is held, what becomes of it. */
export function EndJob(props: {
  readonly job: JobView;
  /** Asked for on the way here, as from the desk. */
  readonly asked?: End | undefined;
}): ReactNode {
  const t = useText();
  const { job } = props;
  const desk = useMay('desk');
  const [end, setEnd] = useState<End | null>(props.asked ?? null);
  const ready = useCommand('bookings.markReady');
  const [leaving, setLeaving] = useState(false);
  const offered = ENDS.filter((e) => job.allows.includes(ACTION[e]));
  const looked = job.stages.every((s) => s.state === 'planned' || s.kind === 'inspection');
  const mayGoHome = job.allows.includes('sendHome') && looked;
  if (!desk || !(mayGoHome || job.state === 'inWork' || offered.length > 0)) return null;
  return (
    <Stack gap={1}>
      <Head level={3} title={t('jobs.end')} />
      <Row>
        {mayGoHome ? <LinkButton onPress={() => setLeaving(true)}>{t('jobs.sendHome')}</LinkButton> : null}
        {job.state === 'inWork' ? (
          <LinkButton onPress={() => void ready.run({ jobId: job.id })}>{t('jobs.markReady')}</LinkButton>
        ) : null}
        {offered.map((e) => (
          <LinkButton key={e} quiet onPress={() => setEnd(e)}>
            {t(`jobs.${e}`)}
          </LinkButton>
        ))}
      </Row>
      <Refusal refusal={ready.refusal} />
      {leaving && mayGoHome ? <HomeForm job={job} onDone={() => setLeaving(false)} /> : null}
      {end === null || !offered.includes(end) ? null : (
        <EndForm key={end} job={job} end={end} onDone={() => setEnd(null)} />
      )}
    </Stack>
  );
}

/** Asks before the car goes home, and to whom its keys are given back. */
function HomeForm(props: { readonly job: JobView; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const { job, onDone } = props;
  const home = useCommand('bookings.sendHome');
  const [givenTo, setGivenTo] = useState(job.customer.name);
  const [note, setNote] = useState('');
  async function send(): Promise<void> {
    const to = givenTo.trim();
    const done = await home.run({ jobId: job.id, note, ...(to === '' ? {} : { givenTo: to }) });
    if (done.ok) onDone();
  }
  return (
    <Confirm
      title={t('jobs.sendHome')}
      text={t('jobs.sendHomeText')}
      yes={t('jobs.sendHome')}
      no={t('jobs.back')}
      busy={home.busy}
      onYes={() => void send()}
      onNo={onDone}
    >
      <TextField label={t('jobs.givenTo')} value={givenTo} onChange={setGivenTo} maxLength={120} />
      <TextField label={t('record.note')} value={note} onChange={setNote} maxLength={400} />
      <Refusal refusal={home.refusal} />
    </Confirm>
  );
}
