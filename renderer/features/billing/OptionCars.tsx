import { type ReactNode, useState } from 'react';
import type { QuoteOptionView } from '#core/shared/views/billing.ts';
import type { BodyStyle, Level, PanelId } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import type { PanelLook, PanelState } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { TapeLine } from '../../ui/TapeLine.tsx';
import css from './billing.module.css';

/** Full: two stages and more. Hatched: one. Outlined: washed and protected, or left alone. */
const STATE_OF: Readonly<Record<Level, PanelState>> = {
  leave: 'plain',
  washOnly: 'outline',
  oneStage: 'hatch',
  twoStage: 'done',
  threeStage: 'done',
  sanded: 'done',
};
const LEGEND = ['twoStage', 'oneStage', 'washOnly'] as const;

/** The car as each option leaves it; the tape wipes from one to the other. */
export function OptionCars(props: {
  readonly body: BodyStyle;
  readonly a: QuoteOptionView;
  readonly b: QuoteOptionView | null;
}): ReactNode {
  const t = useText();
  const [at, setAt] = useState(0.5);
  const { a, b, body } = props;
  const share = `${at * 100}%`;
  return (
    <div>
      <div className={css['cars']}>
        <div style={b ? { clipPath: `inset(0 calc(100% - ${share}) 0 0)` } : undefined}>
          <OptionCar body={body} option={a} />
        </div>
        {b ? (
          <>
            <div className={css['over']} style={{ clipPath: `inset(0 0 0 ${share})` }}>
              <OptionCar body={body} option={b} />
            </div>
            <TapeLine
              value={at}
              onChange={setAt}
              label={t('quote.compareWith')}
              said={`${a.letter} | ${b.letter}`}
            />
          </>
        ) : null}
      </div>
      <CarLegend />
    </div>
  );
}

/** What the forms on the cars mean. */
export function CarLegend(): ReactNode {
  const t = useText();
  return (
    <p className={css['legend']}>
      {LEGEND.map((level) => (
        <span key={level} data-state={STATE_OF[level]}>
          {t(`quote.form.${level}`)}
        </span>
      ))}
    </p>
  );
}

/** The car as one option leaves it. */
export function OptionCar(props: { readonly body: BodyStyle; readonly option: QuoteOptionView }): ReactNode {
  const t = useText();
  const look: Partial<Record<PanelId, PanelLook>> = {};
  for (const { panel, level } of props.option.panels)
    look[panel] = { state: STATE_OF[level], said: t(`word.level.${level}`) };
  return <FlatCar body={props.body} label={t('quote.option', { letter: props.option.letter })} look={look} />;
}
