import { type ReactNode, useEffect, useRef, useState } from 'react';
import { startsUnagreed } from '#core/shared/agreed.ts';
import type { JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { hours } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import type { CardStage, CardView } from '#core/shared/views/card.ts';
import { useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Place } from '../../ui/Layout.tsx';
import type { Params } from '../../ui/router.ts';
import { Caution, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { CardCar } from './CardCar.tsx';
import css from './card.module.css';
import { cureSaid, isCuring } from './cureSaid.ts';
import { FinishForm } from './FinishForm.tsx';
import { NoteForm } from './NoteForm.tsx';
import { ReadingForm } from './ReadingForm.tsx';
import { SpotForm } from './SpotForm.tsx';
import { type CardForm, StageActs } from './StageActs.tsx';
import { StageFacts } from './StageFacts.tsx';

/** The job card in the bay: thumb first, one stage at a time, with how it is done and how far on each panel. */
export function Card(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] as JobId;
  const asked = useQuery('bookings.card', { jobId });
  if (!asked.data)
    return (
      <Place label={t('jobs.step.card')}>
        {asked.loading ? <Waiting /> : <Refusal refusal={asked.error} />}
      </Place>
    );
  return <CardBody card={asked.data} />;
}

type Opened = { readonly stageId: StageId; readonly what: CardForm };

function stageInHand(stages: readonly CardStage[]): CardStage | undefined {
  const of = (state: CardStage['state']): CardStage | undefined => stages.find((s) => s.state === state);
  const attended = stages.find((s) => s.state === 'inWork' && s.crew > 0);
  return attended ?? of('paused') ?? of('planned') ?? of('inWork') ?? stages.at(-1);
}

function CardBody(props: { readonly card: CardView }): ReactNode {
  const t = useText();
  const { card } = props;
  const [chosen, setChosen] = useState<StageId | null>(null);
  const [open, setOpen] = useState<Opened | null>(null);
  const [said, setSaid] = useState<readonly string[]>([]);
  // Kept while a form is open instead of the stage: whoever noted something is who pauses next.
  const [workers, setWorkers] = useState<Readonly<Record<StageId, PersonId>>>({});
  const stage = card.stages.find((s) => s.id === chosen) ?? stageInHand(card.stages);
  return (
    <main className={css['card']}>
      <CardHead card={card} />
      {startsUnagreed(card.job) ? <Caution>{t('jobs.unagreed')}</Caution> : null}
      {said.map((text) => (
        <Caution key={text}>{text}</Caution>
      ))}
      {stage === undefined ? (
        <Empty title={t('card.nothing')} text={t('card.nothingText')}>
          <LinkTo to={`/jobs/${card.job.id}/estimate`}>{t('jobs.step.estimate')}</LinkTo>
        </Empty>
      ) : open?.stageId === stage.id ? (
        <OpenForm
          card={card}
          stage={stage}
          what={open.what}
          onBack={() => setOpen(null)}
          onDone={(told) => {
            if (open.what === 'finish') setChosen(null);
            setOpen(null);
            setSaid(told);
          }}
        />
      ) : (
        <>
          <StageRow stages={card.stages} nowMs={card.nowMs} on={stage.id} onChoose={setChosen} />
          <div className={css['body']}>
            <StageFacts key={`${stage.id}${card.nowMs}`} stage={stage} nowMs={card.nowMs} />
            <CardCar card={card} stage={stage} />
          </div>
          <StageActs
            key={`${stage.id}acts`}
            card={card}
            stage={stage}
            worker={workers[stage.id] ?? null}
            onWorker={(worker) => setWorkers({ ...workers, [stage.id]: worker })}
            onOpen={(what) => setOpen({ stageId: stage.id, what })}
            onSaid={setSaid}
          />
        </>
      )}
    </main>
  );
}

/** What is open instead of the stage: everything that is typed in the bay, without leaving the card. */
function OpenForm(props: {
  readonly card: CardView;
  readonly stage: CardStage;
  readonly what: CardForm;
  readonly onBack: () => void;
  readonly onDone: (told: readonly string[]) => void;
}): ReactNode {
  const { what, ...rest } = props;
  switch (what) {
    case 'finish':
      return <FinishForm {...rest} />;
    case 'reading':
      return <ReadingForm {...rest} />;
    case 'spot':
      return <SpotForm {...rest} />;
    case 'note':
      return <NoteForm {...rest} />;
  }
}

function CardHead(props: { readonly card: CardView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job, nowMs } = props.card;
  const me = useMe();
  const at = job.promise.pickUpMin === null ? null : job.promise.pickUpMin * 60_000;
  return (
    <header className={css['head']}>
      <h1 className="t3 cut">{job.customer.name}</h1>
      <span className="quiet cut">
        {t('jobs.number', { number: job.number })}, {job.vehicle.makeModel}, {job.vehicle.colour}
      </span>
      <strong className={job.promise.late ? 'lamp num' : 'num'}>
        {at === null ? t('card.noPromise') : t('card.out', { when: when(manner, at, nowMs) })}
      </strong>
      <nav className={css['leave']} aria-label={t('ui.places')}>
        {me ? (
          <LinkTo to={`/who?back=/jobs/${job.id}/card`}>{t('card.signedIn', { name: me.name })}</LinkTo>
        ) : null}
        <LinkTo to={`/jobs/${job.id}`}>{t('card.back')}</LinkTo>
      </nav>
    </header>
  );
}

function StageRow(props: {
  readonly stages: readonly CardStage[];
  readonly nowMs: number;
  readonly on: StageId;
  readonly onChoose: (id: StageId) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    const on = row.current?.querySelector(`[data-stage="${props.on}"]`);
    on?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [props.on]);
  return (
    <nav ref={row} className={css['stages']} aria-label={t('card.stages')}>
      {props.stages.map((s) => {
        const min = s.state === 'done' && s.attendedMs > 0 ? s.attendedMs / 60_000 : s.p50Min || s.dwellMin;
        return (
          <button
            key={s.id}
            type="button"
            className={css['stage']}
            data-stage={s.id}
            data-state={s.state}
            data-on={s.id === props.on}
            aria-pressed={s.id === props.on}
            onClick={() => props.onChoose(s.id)}
          >
            <span className="cut">{t(`word.stage.${s.kind}`)}</span>
            <span className="t1">
              {isCuring(s) ? (
                cureSaid(s, props.nowMs, manner, t)
              ) : (
                <>
                  {t(`word.stageState.${s.state}`)},{' '}
                  <span className="num">{amountText(hours(manner, min))}</span>
                </>
              )}
            </span>
          </button>
        );
      })}
    </nav>
  );
}
