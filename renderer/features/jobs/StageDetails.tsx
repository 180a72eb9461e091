import { type ReactNode, useEffect, useRef, useState } from 'react';
import { when } from '#core/shared/text/when.ts';
import type { JobView, StageView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './jobs.module.css';
import { StageWork } from './StageWork.tsx';

/** One stage opened: its time, what was noted on it, and dropping it with a reason. */
export function StageDetails(props: { readonly job: JobView; readonly stage: StageView }): ReactNode {
  const { job, stage } = props;
  const over = stage.state === 'done' || stage.state === 'dropped';
  const top = useRef<HTMLElement>(null);
  // Opened under the table: into sight, whatever was scrolled to.
  useEffect(() => {
    top.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const open = job.state !== 'cancelled' && job.state !== 'collected';
  return (
    <section ref={top} className={css['stage']}>
      {stage.crew > 0 ? (
        <StageWork stage={stage} mayType={stage.state !== 'planned' || job.allows.includes('work')} />
      ) : null}
      <StageNotes stage={stage} />
      {over || !open ? null : <DropStage stage={stage} />}
    </section>
  );
}

function StageNotes(props: { readonly stage: StageView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { stage } = props;
  const add = useCommand('bookings.noteStage');
  const [text, setText] = useState('');
  async function save(): Promise<void> {
    const done = await add.run({ stageId: stage.id, note: text });
    if (done.ok) setText('');
  }
  return (
    <section aria-label={t('jobs.notes')}>
      <Head level={2} title={t('jobs.notes')} note={t(`word.stage.${stage.kind}`)} />
      {stage.note ? <p className="quiet">{stage.note}</p> : null}
      {stage.notes.map((n) => (
        <p key={`${n.atMs}${n.text}`}>
          {n.text}{' '}
          <span className="quiet t1">
            {n.by}, {when(manner, n.atMs, Date.now())}
          </span>
        </p>
      ))}
      <div className={css['noteForm']}>
        <TextField label={t('jobs.note')} value={text} onChange={setText} maxLength={1000} />
        <Button
          busy={add.busy}
          why={text.trim() === '' ? t('card.noteEmpty') : undefined}
          onPress={() => void save()}
        >
          {t('card.noteKeep')}
        </Button>
      </div>
      <Refusal refusal={add.refusal} />
    </section>
  );
}

function DropStage(props: { readonly stage: StageView }): ReactNode {
  const t = useText();
  const { stage } = props;
  const drop = useCommand('bookings.dropStage');
  const [asked, setAsked] = useState(false);
  const [reason, setReason] = useState('');
  const name = t(`word.stage.${stage.kind}`);
  if (!asked)
    return (
      <Row>
        <LinkButton quiet onPress={() => setAsked(true)}>
          {t('jobs.drop', { stage: name })}
        </LinkButton>
      </Row>
    );
  return (
    <Confirm
      title={t('jobs.drop', { stage: name })}
      text={t('jobs.dropText')}
      yes={t('jobs.dropYes')}
      no={t('jobs.back')}
      busy={drop.busy}
      onYes={() => void drop.run({ stageId: stage.id, reason })}
      onNo={() => setAsked(false)}
    >
      <TextField label={t('jobs.reason')} value={reason} onChange={setReason} maxLength={400} />
      <Refusal refusal={drop.refusal} />
    </Confirm>
  );
}
