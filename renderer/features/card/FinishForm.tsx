import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { CardStage } from '#core/shared/views/bookings.ts';
import type { ProposedDraw } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './card.module.css';

type Amounts = Readonly<Record<string, number>>;

/** What the stage used, as proposed; corrected with a thumb, then booked with the end of the stage in one step. */
export function FinishForm(props: {
  readonly stage: CardStage;
  readonly onDone: (said: readonly string[]) => void;
  readonly onBack: () => void;
}): ReactNode {
  const t = useText();
  const { stage } = props;
  const proposed = useQuery('stock.proposeDraws', { stageId: stage.id });
  const finish = useCommand('bookings.finishStage');
  const [changed, setChanged] = useState<Amounts>({});
  const draws = proposed.data ?? [];
  const amountFor = (d: ProposedDraw): number => changed[d.material] ?? d.proposed;
  async function run(): Promise<void> {
    const sent = draws.map((d) =>
      d.itemId === null
        ? { material: d.material, amount: amountFor(d) }
        : { itemId: d.itemId, amount: amountFor(d) },
    );
    const done = await finish.run({ stageId: stage.id, draws: sent });
    if (!done.ok) return;
    const counts = done.value.drawn.drawn.filter((d) => d.countOpened);
    props.onDone([
      ...counts.map((d) => t('card.count', { item: d.itemName })),
      ...(done.value.ready ? [t('card.ready')] : []),
    ]);
  }
  return (
    <section aria-label={t('card.usedUp')}>
      <Head title={t('card.usedUp')} note={t(`word.stage.${stage.kind}`)} />
      {proposed.loading ? <Waiting /> : null}
      {draws.map((d) => (
        <DrawLine
          key={d.material}
          draw={d}
          amount={amountFor(d)}
          onChange={(amount) => setChanged({ ...changed, [d.material]: amount })}
        />
      ))}
      <Refusal refusal={proposed.error ?? finish.refusal} />
      <div className={css['go']}>
        <Row>
          <Button kind="go" busy={finish.busy || proposed.loading} onPress={() => void run()}>
            {t('card.save')}
          </Button>
          <Button onPress={props.onBack}>{t('jobs.back')}</Button>
        </Row>
      </div>
    </section>
  );
}

/** A step that a thumb can count in: one piece, else about a tenth of what is proposed, rounded. */
function stepOf(draw: ProposedDraw): number {
  if (draw.unit === 'piece') return 1;
  const tenth = Math.max(1000, draw.proposed / 10);
  return Math.max(1000, Math.round(tenth / 1000) * 1000);
}

function DrawLine(props: {
  readonly draw: ProposedDraw;
  readonly amount: number;
  readonly onChange: (amount: number) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { draw, amount } = props;
  const name = draw.itemName || t(`word.material.${draw.material}`);
  const step = stepOf(draw);
  return (
    <div className={css['draw']}>
      <span className="cut" title={name}>
        {name}
      </span>
      <button
        type="button"
        aria-label={`${name} −`}
        onClick={() => props.onChange(Math.max(0, amount - step))}
      >
        −
      </button>
      <strong className="num right" aria-live="polite">
        {amountText(amountOf(manner, draw.unit, amount))}
      </strong>
      <button type="button" aria-label={`${name} +`} onClick={() => props.onChange(amount + step)}>
        +
      </button>
    </div>
  );
}
