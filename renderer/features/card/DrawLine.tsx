import type { ReactNode } from 'react';
import { fineStep, fromShown, shownUnit } from '#core/shared/amounts.ts';
import { amountOf, count } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { ProposedDraw } from '#core/shared/views/stockItem.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Stepper } from './Stepper.tsx';
import stepper from './stepper.module.css';

/** What a line shows of a draw; an item that serves no material has none. */
type Draw = Pick<
  ProposedDraw,
  'unit' | 'itemId' | 'itemName' | 'planned' | 'proposed' | 'factor' | 'learned'
> & { readonly material: ProposedDraw['material'] | null };

/** The unit's natural step in base units. */
function fineOf(draw: Draw, manner: Manner): number {
  const shown = shownUnit(draw.unit, { volume: manner.volumeUnit, length: manner.lengthUnit });
  return fromShown(fineStep(shown), shown);
}

/** The large step, base units: about a tenth of what is proposed, in whole natural steps; null where that is the step itself. */
function bigStepOf(draw: Draw, fine: number): number | null {
  const steps = Math.round(draw.proposed / 10 / fine);
  return steps > 1 ? steps * fine : null;
}

/** What the factor rests on: past stages of the kind, who works, the paint. */
function evidence(draw: Draw, t: Say, manner: Manner): string {
  const parts = draw.learned.map((e) =>
    t(`card.learned.${e.what}`, { of: e.of, factor: count(manner, e.factor, 2), n: e.n }),
  );
  return t('card.learned', { factor: count(manner, draw.factor, 2), parts: parts.join(', ') });
}

/** So many times the proposed amount look like a digit too many. @source common practice, no source */
const FAR_OVER = 5;

/** Asked after, never refused: so much may have been used, and what happened is always written down. */
function FarOver(props: { readonly draw: Draw; readonly amount: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { draw, amount } = props;
  const isFar = draw.proposed > 0 && amount >= FAR_OVER * draw.proposed;
  const times = count(manner, Math.floor(amount / Math.max(1, draw.proposed)));
  return (
    <span role="status" className={stepper['far']}>
      {isFar ? t('card.farOver', { times }) : null}
    </span>
  );
}

/** One material: its name, why so much is proposed, and the amount to correct. */
export function DrawLine(props: {
  readonly draw: Draw;
  readonly amount: number;
  readonly onChange: (amount: number) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { draw, amount } = props;
  const name = draw.itemName || (draw.material ? t(`word.material.${draw.material}`) : '');
  const fine = fineOf(draw, manner);
  const big = bigStepOf(draw, fine);
  const by = (step: number): void => props.onChange(Math.max(0, amount + step));
  return (
    <div className={stepper['draw']}>
      <div>
        <span className="cut" title={name}>
          {name}
        </span>
        <span className="quiet t1">
          {t('card.planned', { amount: amountText(amountOf(manner, draw.unit, draw.planned)) })}
          {draw.itemId === null ? `, ${t('card.noItem')}` : null}
        </span>
        <FarOver draw={draw} amount={amount} />
        {draw.learned.length > 0 ? <span className="quiet t1">{evidence(draw, t, manner)}</span> : null}
      </div>
      <Stepper
        name={name}
        onStep={(way) => by(way * fine)}
        onBig={big === null ? undefined : (way) => by(way * big)}
        bigName={big === null ? '' : amountText(amountOf(manner, draw.unit, big))}
      >
        <AmountField
          label={name}
          unit={draw.unit}
          digits={1}
          value={amount}
          onChange={(typed) => props.onChange(typed ?? 0)}
        />
      </Stepper>
    </div>
  );
}
