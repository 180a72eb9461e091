import { type ReactNode, useState } from 'react';
import type { OutputFor } from '#core/shared/catalogue.ts';
import type { StageId } from '#core/shared/ids.ts';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import type { CardStage } from '#core/shared/views/card.ts';
import type { DrawResult, ProposedDraw } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDraft } from '../../bridge/drafts.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { DraftNote } from '../../ui/DraftNote.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { type Aside, AskAside } from './AskAside.tsx';
import css from './card.module.css';
import { DrawLine } from './DrawLine.tsx';
import { type Amounts, drawsOf, MoreUsed } from './MoreUsed.tsx';

/** What the stage used, as proposed; corrected with a thumb, then booked with the end of the stage in one step. */
export function FinishForm(props: {
  readonly stage: CardStage;
  readonly onDone: (said: readonly string[]) => void;
  readonly onBack: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { stage } = props;
  const proposed = useQuery('stock.proposeDraws', { stageId: stage.id });
  const finish = useCommand('bookings.finishStage');
  const { changed, leftAt, change, drop, anew } = useTyped(stage.id);
  const draws = proposed.data ?? [];
  const amountFor = (d: ProposedDraw): number => changed[d.material] ?? d.proposed;
  async function run(setAside?: Aside): Promise<void> {
    const done = await finish.run({ stageId: stage.id, draws: drawsOf(draws, changed), setAside });
    if (!done.ok) return;
    drop();
    props.onDone(saidOf(done.value, t, manner));
  }
  return (
    <section className={css['form']} aria-label={t('card.usedUp')}>
      <Head title={t('card.usedUp')} note={t(`word.stage.${stage.kind}`)} />
      {leftAt === null ? null : <GoesOn atMs={leftAt} onAnew={anew} />}
      {proposed.loading ? <Waiting /> : null}
      {proposed.data?.length === 0 ? <p className="quiet">{t('card.usesNothing')}</p> : null}
      {draws.map((d) => (
        <DrawLine
          key={d.material}
          draw={d}
          amount={amountFor(d)}
          onChange={(amount) => change({ ...changed, [d.material]: amount })}
        />
      ))}
      {proposed.data ? <MoreUsed proposed={draws} amounts={changed} onChange={change} /> : null}
      <Refusal refusal={proposed.error} />
      <AskAside refusal={finish.refusal} onAside={(aside) => void run(aside)} />
      <div className={css['go']}>
        <Row>
          <Button
            kind="go"
            busy={finish.busy || proposed.loading}
            why={proposed.data ? undefined : t('card.notProposed')}
            onPress={() => void run()}
          >
            {t('card.save')}
          </Button>
          <Button onPress={props.onBack}>{t('card.backToStage')}</Button>
        </Row>
      </div>
    </section>
  );
}

/** Says that the amounts are those somebody left here, and offers the proposed ones. */
function GoesOn(props: { readonly atMs: number; readonly onAnew: () => void }): ReactNode {
  const t = useText();
  const text = t('ui.draft.goesOn', { at: when(useManner(), props.atMs, Date.now()) });
  return <DraftNote text={text} anew={t('ui.draft.anew')} onAnew={props.onAnew} />;
}

/** What was corrected, kept until the stage is finished: whoever goes back to the job types nothing twice. */
function useTyped(stageId: StageId) {
  const { found, keep, drop } = useDraft<Amounts>(`used.1.${stageId}`);
  const [changed, setChanged] = useState<Amounts>(found?.value ?? {});
  const [leftAt, setLeftAt] = useState(found?.atMs ?? null);
  function change(next: Amounts): void {
    setChanged(next);
    keep(next);
  }
  function anew(): void {
    setChanged({});
    setLeftAt(null);
    drop();
  }
  return { changed, leftAt, change, drop, anew };
}

/** What the person is told once the stage is finished: counts it opened, what stays with the job, a car that is ready. */
function saidOf(done: OutputFor<'bookings.finishStage'>, t: Say, manner: Manner): readonly string[] {
  const counts = done.drawn.drawn.filter((d) => d.countOpened || d.beyond > 0);
  const notKept = done.drawn.notKept.map(
    (n) => `${t(`word.material.${n.material}`)} ${amountText(amountOf(manner, n.unit, n.amount))}`,
  );
  return [
    ...counts.map((d) => beyondSaid(d, t, manner)),
    ...(notKept.length > 0 ? [t('card.keptWithJob', { materials: notKept.join(', ') })] : []),
    ...(done.ready ? [t('card.ready')] : []),
  ];
}

/** More used than the book had. Only pieces that go round leave it at zero or more: they were taken as found. */
function beyondSaid(draw: DrawResult, t: Say, manner: Manner): string {
  if (draw.beyond === 0) return t('card.count', { item: draw.itemName });
  const amount = amountText(amountOf(manner, draw.unit, draw.beyond));
  const said = { item: draw.itemName, amount, opened: draw.countOpened };
  return t('card.beyond', { ...said, round: draw.onHandAfter >= 0 });
}
