import { type ReactNode, useState } from 'react';
import { isUnagreed } from '#core/shared/agreed.ts';
import type { StageId } from '#core/shared/ids.ts';
import type { Ppm } from '#core/shared/units.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import { DepositChoice, type DepositSaid, HELD, type IssueDate, settledBy } from './DepositChoice.tsx';
import { type Named, StopShares } from './StopShares.tsx';

export const ENDS = ['noShow', 'cancel', 'stop', 'redo'] as const;
export type End = (typeof ENDS)[number];

/** Why a job ends otherwise, what becomes of its deposit, what was done of it; then it ends. */
export function EndForm(props: {
  readonly job: JobView;
  readonly end: End;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const { job, end } = props;
  const [reason, setReason] = useState('');
  const [deposit, setDeposit] = useState(HELD);
  const [named, setNamed] = useState<Named>(new Map());
  const ending = useEnding(job, end, props.onDone);
  const byTime = end === 'stop' && isUnagreed(job);
  const lacksJob = deposit.outcome === 'moved' && deposit.toJobId === null;
  const run = (date: IssueDate): void => void ending.run({ reason, deposit, named, date });
  return (
    <Confirm
      title={t(`jobs.${end}`)}
      text={t(`jobs.endText.${byTime ? 'stopByTime' : end}`)}
      yes={t(`jobs.${end}`)}
      no={t('jobs.back')}
      why={lacksJob ? t('settle.toJob') : undefined}
      busy={ending.busy}
      onYes={() => run('ask')}
      onNo={props.onDone}
    >
      <TextField label={t('jobs.reason')} value={reason} onChange={setReason} maxLength={400} />
      {end === 'noShow' || end === 'cancel' ? (
        <DepositChoice job={job} value={deposit} onChange={setDeposit} />
      ) : null}
      {end === 'stop' && !byTime ? <StopShares jobId={job.id} named={named} onChange={setNamed} /> : null}
      <Refusal refusal={ending.refusal}>
        {ending.refusal?.code === 'ISSUE_DATE_AHEAD' ? (
          <LinkButton onPress={() => run('today')}>{t('invoice.issueToday')}</LinkButton>
        ) : null}
        {ending.refusal?.code === 'ISSUE_DATE_BEHIND' ? (
          <LinkButton onPress={() => run('lastDay')}>{t('invoice.issueLastDay')}</LinkButton>
        ) : null}
      </Refusal>
    </Confirm>
  );
}

type Said = {
  readonly reason: string;
  readonly deposit: DepositSaid;
  readonly named: Named;
  readonly date: IssueDate;
};

/** The command of each way to end. */
function useEnding(job: JobView, end: End, onDone: () => void) {
  const jobId = job.id;
  const noShow = useCommand('bookings.noShow');
  const cancel = useCommand('bookings.cancelJob');
  const stop = useCommand('bookings.stopHalfWay');
  const redo = useCommand('bookings.openRedo');
  async function carriedOut(said: Said): Promise<boolean> {
    const { reason, date } = said;
    const settled = settledBy(said.deposit, date);
    switch (end) {
      case 'noShow':
        return (await noShow.run({ jobId, reason, deposit: settled })).ok;
      case 'cancel':
        return (await cancel.run({ jobId, reason, deposit: settled })).ok;
      case 'stop':
        return (await stop.run({ jobId, reason, shares: sharesOf(said.named) })).ok;
      case 'redo': {
        const opened = await redo.run({ jobId, wish: reason });
        if (opened.ok) go(`/jobs/${opened.value.jobId}`);
        return opened.ok;
      }
    }
  }
  return {
    run: async (said: Said): Promise<void> => {
      if (await carriedOut(said)) onDone();
    },
    busy: noShow.busy || cancel.busy || stop.busy || redo.busy,
    refusal: noShow.refusal ?? cancel.refusal ?? stop.refusal ?? redo.refusal,
  };
}

function sharesOf(named: Named): { stageId: StageId; sharePpm: Ppm }[] {
  return [...named].map(([stageId, sharePpm]) => ({ stageId, sharePpm }));
}
