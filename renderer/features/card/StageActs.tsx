import { type ReactNode, useState } from 'react';
import type { CardStage, CardView, WorkConflict } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMe } from '../../bridge/person.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import css from './card.module.css';
import { HoldButton } from './HoldButton.tsx';

function told(t: Say, conflict: WorkConflict): string {
  if (conflict.kind === 'twoAtOnce')
    return t('card.told.twoAtOnce', { person: conflict.person.name, number: conflict.otherJobNumber });
  if (conflict.kind === 'cureCutShort') return t('card.told.cureCutShort', { min: conflict.missingMin });
  return t('jobs.conflict.overrun', { stage: t(`word.stage.${conflict.stage}`), min: conflict.overMin });
}

/** Start, pause, finish; readings and test spots; a rule of the trade set aside with a name and a reason. */
export function StageActs(props: {
  readonly card: CardView;
  readonly stage: CardStage;
  readonly onFinish: () => void;
  readonly onSaid: (said: readonly string[]) => void;
}): ReactNode {
  const t = useText();
  const me = useMe();
  const { card, stage } = props;
  const { job } = card;
  const start = useCommand('bookings.startStage');
  const pause = useCommand('bookings.pauseStage');
  const [reason, setReason] = useState('');
  const mine = stage.work.some((w) => w.endMs === null && w.person.id === me?.personId);
  const anyone = stage.work.some((w) => w.endMs === null);
  const over = stage.state === 'done' || stage.state === 'dropped';
  async function begin(because?: string): Promise<void> {
    const aside = because === undefined ? {} : { setAside: { reason: because } };
    const done = await start.run({ stageId: stage.id, ...aside });
    if (done.ok) props.onSaid(done.value.conflicts.map((c) => told(t, c)));
  }
  const notHere = job.allows.includes('work') ? undefined : t('card.notHere');
  return (
    <>
      <Refusal refusal={start.refusal ?? pause.refusal}>
        {start.refusal?.code === 'STAGE_ORDER' ? (
          <>
            <TextField label={t('card.setAsideWhy')} value={reason} onChange={setReason} maxLength={400} />
            <Button
              why={reason.trim().length < 3 ? t('card.setAsideWhy') : undefined}
              onPress={() => void begin(reason)}
            >
              {t('card.setAside')}
            </Button>
          </>
        ) : null}
      </Refusal>
      <nav className={css['go']}>
        {over || mine || (stage.crew === 0 && stage.state === 'inWork') ? null : (
          <Button kind={anyone ? 'plain' : 'go'} busy={start.busy} why={notHere} onPress={() => void begin()}>
            {stage.state === 'paused' ? t('card.go') : t('card.start')}
          </Button>
        )}
        {anyone ? (
          <Button busy={pause.busy} onPress={() => void pause.run({ stageId: stage.id })}>
            {t('card.pause')}
          </Button>
        ) : null}
        {over || stage.state === 'planned' ? null : (
          <HoldButton onHeld={props.onFinish}>{t('card.finish')}</HoldButton>
        )}
        <Button onPress={() => go(`/jobs/${job.id}/inspection`)}>{t('card.reading')}</Button>
        <Button onPress={() => go(`/jobs/${job.id}/estimate`)}>{t('card.testSpot')}</Button>
        {job.state === 'booked' ? (
          <LinkTo to={`/jobs/${job.id}/arrive`}>{t('jobs.step.arrive')}</LinkTo>
        ) : null}
      </nav>
    </>
  );
}
