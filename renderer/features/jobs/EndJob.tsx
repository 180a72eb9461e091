import { type ReactNode, useState } from 'react';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
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
  const home = useCommand('bookings.sendHome');
  const ready = useCommand('bookings.markReady');
  const offered = ENDS.filter((e) => job.allows.includes(ACTION[e]));
  if (!desk) return null;
  const looked = job.stages.every((s) => s.state === 'planned' || s.kind === 'inspection');
  return (
    <Stack gap={1}>
      <Head level={3} title={t('jobs.end')} />
      <Row>
        {job.allows.includes('sendHome') && looked ? (
          <LinkButton onPress={() => void home.run({ jobId: job.id })}>{t('jobs.sendHome')}</LinkButton>
        ) : null}
        {job.state === 'inWork' ? (
          <LinkButton onPress={() => void ready.run({ jobId: job.id })}>{t('jobs.markReady')}</LinkButton>
        ) : null}
        {offered.map((e) => (
          <LinkButton key={e} quiet onPress={() => setEnd(e)}>
            {t(`jobs.${e}`)}
          </LinkButton>
        ))}
      </Row>
      <Refusal refusal={home.refusal ?? ready.refusal} />
      {end === null || !offered.includes(end) ? null : (
        <EndForm key={end} job={job} end={end} onDone={() => setEnd(null)} />
      )}
    </Stack>
  );
}
