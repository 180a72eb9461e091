import { type ReactNode, useState } from 'react';
import { hours } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { exact, span, when } from '#core/shared/text/when.ts';
import type { StageView, WorkView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { InlineConfirm } from '../../ui/Acts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { TimeForm } from './TimeForm.tsx';

type Open = { readonly what: 'correct' | 'remove'; readonly work: WorkView } | { readonly what: 'type' };

/** Time worked on a stage: who, from when to when; typed in, corrected or taken out. */
export function StageWork(props: { readonly stage: StageView; readonly mayType: boolean }): ReactNode {
  const t = useText();
  const [open, setOpen] = useState<Open | null>(null);
  const correct = useCommand('bookings.correctTime');
  const { stage } = props;
  const close = (): void => setOpen(null);
  async function remove(work: WorkView): Promise<void> {
    await correct.run({ workId: work.id, change: { to: 'removed' } });
    close();
  }
  return (
    <section aria-label={t('jobs.time')}>
      <Head level={2} title={t('jobs.time')} note={t(`word.stage.${stage.kind}`)}>
        {props.mayType ? (
          <LinkButton quiet onPress={() => setOpen({ what: 'type' })}>
            {t('jobs.time.type')}
          </LinkButton>
        ) : null}
      </Head>
      {stage.work.length === 0 ? <p className="quiet">{t('jobs.time.none')}</p> : null}
      {stage.work.length > 0 ? <Stretches stage={stage} onOpen={setOpen} /> : null}
      {open?.what === 'type' ? <TimeForm stage={stage} work={null} onDone={close} /> : null}
      {open?.what === 'correct' ? (
        <TimeForm key={open.work.id} stage={stage} work={open.work} onDone={close} />
      ) : null}
      {open?.what === 'remove' ? (
        <InlineConfirm
          question={t('jobs.time.removeAsk', { person: open.work.person.name })}
          yes={t('jobs.time.remove')}
          no={t('jobs.back')}
          onYes={() => void remove(open.work)}
          onNo={close}
        />
      ) : null}
      <Refusal refusal={correct.refusal} />
    </section>
  );
}

function Stretches(props: { readonly stage: StageView; readonly onOpen: (open: Open) => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const worked = (w: WorkView): string =>
    w.endMs === null
      ? `${when(manner, w.startMs, Date.now())}–${t('jobs.time.runs')}`
      : span(manner, w.startMs, w.endMs);
  return (
    <Table<WorkView>
      label={t('jobs.time')}
      rows={props.stage.work}
      rowKey={(w) => String(w.id)}
      columns={[
        { key: 'who', head: t('card.who'), cell: (w) => <span className="cut">{w.person.name}</span> },
        {
          key: 'span',
          head: t('jobs.time.span'),
          cell: (w) => (
            <span className="num" title={exact(manner, w.startMs)}>
              {worked(w)}
            </span>
          ),
        },
        {
          key: 'hours',
          head: t('jobs.actual'),
          align: 'right',
          width: '80px',
          cell: (w) => (w.endMs === null ? '' : amountText(hours(manner, (w.endMs - w.startMs) / 60_000))),
        },
        { key: 'typed', head: '', width: '60px', cell: (w) => (w.corrected ? t('jobs.time.typed') : '') },
        {
          key: 'acts',
          head: '',
          align: 'right',
          width: '150px',
          cell: (w) =>
            w.endMs === null ? null : (
              <>
                <LinkButton quiet onPress={() => props.onOpen({ what: 'correct', work: w })}>
                  {t('jobs.time.correct')}
                </LinkButton>{' '}
                <LinkButton quiet onPress={() => props.onOpen({ what: 'remove', work: w })}>
                  {t('jobs.time.remove')}
                </LinkButton>
              </>
            ),
        },
      ]}
    />
  );
}
