import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';

const ENDS = ['noShow', 'cancel', 'stop', 'redo'] as const;
type End = (typeof ENDS)[number];
const ACTION = { noShow: 'noShow', cancel: 'cancel', stop: 'stopHalfWay', redo: 'redo' } as const;
const DEPOSITS = ['held', 'kept', 'returned'] as const;
type Deposit = (typeof DEPOSITS)[number];

/** Ways a job ends other than as planned, each with its reason and, where money is held, what becomes of it. */
export function EndJob(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const { job } = props;
  const desk = useMay('desk');
  const [end, setEnd] = useState<End | null>(null);
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
      {end === null ? null : <EndForm key={end} job={job} end={end} onDone={() => setEnd(null)} />}
    </Stack>
  );
}

function EndForm(props: {
  readonly job: JobView;
  readonly end: End;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job, end } = props;
  const jobId = job.id;
  const [reason, setReason] = useState('');
  const [deposit, setDeposit] = useState<Deposit>('held');
  const noShow = useCommand('bookings.noShow');
  const cancel = useCommand('bookings.cancelJob');
  const stop = useCommand('bookings.stopHalfWay');
  const redo = useCommand('bookings.openRedo');
  const held = job.money.depositMinor ?? 0;
  const doubt = (noShow.refusal ?? cancel.refusal)?.code;
  async function run(date: 'ask' | 'today' | 'lastDay'): Promise<void> {
    const settled = deposit === 'held' ? null : { outcome: deposit, way: 'transfer' as const, date };
    if (end === 'redo') {
      const opened = await redo.run({ jobId, wish: reason });
      if (opened.ok) go(`/jobs/${opened.value.jobId}`);
      return;
    }
    const done =
      end === 'noShow'
        ? await noShow.run({ jobId, reason, deposit: settled })
        : end === 'cancel'
          ? await cancel.run({ jobId, reason, deposit: settled })
          : await stop.run({ jobId, reason });
    if (done.ok) props.onDone();
  }
  return (
    <Confirm
      title={t(`jobs.${end}`)}
      text={t(`jobs.endText.${end}`)}
      yes={t(`jobs.${end}`)}
      no={t('jobs.back')}
      busy={noShow.busy || cancel.busy || stop.busy || redo.busy}
      onYes={() => void run('ask')}
      onNo={props.onDone}
    >
      <TextField label={t('jobs.reason')} value={reason} onChange={setReason} maxLength={400} />
      {held > 0 && (end === 'noShow' || end === 'cancel') ? (
        <Segmented
          label={t('jobs.depositDone', { money: money(manner, held) })}
          value={deposit}
          onChange={setDeposit}
          options={DEPOSITS.map((value) => ({ value, label: t(`jobs.deposit.${value}`) }))}
        />
      ) : null}
      <Refusal refusal={noShow.refusal ?? cancel.refusal ?? stop.refusal ?? redo.refusal}>
        {doubt === 'ISSUE_DATE_AHEAD' ? (
          <LinkButton onPress={() => void run('today')}>{t('invoice.issueToday')}</LinkButton>
        ) : null}
        {doubt === 'ISSUE_DATE_BEHIND' ? (
          <LinkButton onPress={() => void run('lastDay')}>{t('invoice.issueLastDay')}</LinkButton>
        ) : null}
      </Refusal>
    </Confirm>
  );
}
