import type { ReactNode } from 'react';
import type { PersonId } from '#core/shared/ids.ts';
import type { LeftStage, WorkConflict } from '#core/shared/views/bookings.ts';
import type { CardStage, CardView } from '#core/shared/views/card.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import { type Aside, AskAside } from './AskAside.tsx';
import css from './card.module.css';
import { HoldButton } from './HoldButton.tsx';
import { runningOn, usualWorker, WhoWorks } from './WhoWorks.tsx';

/** What can be typed on the card. */
export type CardForm = 'finish' | 'reading' | 'spot' | 'note';

type Props = {
  readonly card: CardView;
  readonly stage: CardStage;
  /** Who was chosen here; null = nobody yet, then whoever usually works on it. */
  readonly worker: PersonId | null;
  readonly onWorker: (worker: PersonId) => void;
  readonly onOpen: (what: CardForm) => void;
  readonly onSaid: (said: readonly string[]) => void;
};

function told(t: Say, conflict: WorkConflict | LeftStage): string {
  if (conflict.kind === 'leftStage')
    return t('card.told.leftStage', {
      person: conflict.person.name,
      stage: t(`word.stage.${conflict.stage}`),
    });
  if (conflict.kind === 'twoAtOnce')
    return t('card.told.twoAtOnce', { person: conflict.person.name, number: conflict.otherJobNumber });
  if (conflict.kind === 'cureCutShort') return t('card.told.cureCutShort', { min: conflict.missingMin });
  return t('jobs.conflict.overrun', { stage: t(`word.stage.${conflict.stage}`), min: conflict.overMin });
}

/** Who works; start, pause, finish; readings, test spots, notes; a rule of the trade set aside with a name and a reason. */
export function StageActs(props: Props): ReactNode {
  const here = useQuery('access.here', {}).data;
  if (!here?.me) return null;
  return <Acts {...props} me={here.me} usual={usualWorker(props.stage, here.people, here.me)} />;
}

function Acts(props: Props & { readonly me: Me; readonly usual: PersonId }): ReactNode {
  const t = useText();
  const { card, stage, onOpen } = props;
  const start = useCommand('bookings.startStage');
  const pause = useCommand('bookings.pauseStage');
  const personId = props.worker ?? props.usual;
  const running = runningOn(stage);
  const over = stage.state === 'done' || stage.state === 'dropped';
  const alone = stage.crew === 0;
  async function begin(setAside?: Aside): Promise<void> {
    const who = alone ? {} : { personId };
    const done = await start.run({ stageId: stage.id, ...who, setAside });
    if (done.ok) props.onSaid(done.value.conflicts.map((c) => told(t, c)));
  }
  const notHere = card.job.allows.includes('work') ? undefined : t('card.notHere');
  const atIt = running.includes(personId);
  return (
    <>
      <AskAside refusal={start.refusal} onAside={(aside) => void begin(aside)} />
      <Refusal refusal={pause.refusal} />
      {over || alone ? null : (
        <div className={css['who']}>
          <WhoWorks stage={stage} value={personId} onChange={props.onWorker} />
        </div>
      )}
      <nav className={css['go']}>
        {over || atIt || (alone && stage.state === 'inWork') ? null : (
          <Button
            kind={running.length > 0 ? 'plain' : 'go'}
            busy={start.busy}
            why={notHere}
            onPress={() => void begin()}
          >
            {stage.state === 'paused' ? t('card.go') : t('card.start')}
          </Button>
        )}
        {atIt ? (
          <Button busy={pause.busy} onPress={() => void pause.run({ stageId: stage.id, personId })}>
            {t('card.pause')}
          </Button>
        ) : null}
        {over || stage.state === 'planned' ? null : (
          <HoldButton onHeld={() => onOpen('finish')}>{t('card.finish')}</HoldButton>
        )}
        <Button onPress={() => onOpen('reading')}>{t('card.reading')}</Button>
        <Button onPress={() => onOpen('spot')}>{t('card.testSpot')}</Button>
        <Button onPress={() => onOpen('note')}>{t('card.note')}</Button>
        {card.job.state === 'booked' ? (
          <LinkTo to={`/jobs/${card.job.id}/arrive`}>{t('jobs.step.arrive')}</LinkTo>
        ) : null}
      </nav>
    </>
  );
}
