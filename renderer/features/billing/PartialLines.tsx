import type { ReactNode } from 'react';
import { moneyPlain, percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { PPM, type Ppm } from '#core/shared/units.ts';
import type { PartialLineView, PartialPlan } from '#core/shared/views/partial.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import css from './billing.module.css';

const PPM_PER_CENT = 10_000;

/** The share of each line that is billed in all by now; null = as its stages are finished. */
export type Shares = ReadonlyMap<number, Ppm> | null;

type Props = {
  readonly plan: PartialPlan;
  readonly shares: ReadonlyMap<number, Ppm>;
  readonly onShare: (line: number, share: Ppm) => void;
};

/** The agreed lines, each with the share it is billed up to and what that is now. */
export function PartialLines(props: Props): ReactNode {
  const t = useText();
  const { plan } = props;
  return (
    <section aria-label={t('partial.line')}>
      <div className={css['partialLine']} data-head="true" aria-hidden="true">
        <span>{t('partial.share')}</span>
        <span className={css['end']}>{t('partial.whole')}</span>
        <span className={css['end']}>{t('partial.billed')}</span>
        <span className={css['end']}>{t('partial.now')}</span>
      </div>
      {plan.lines.map((line) => (
        <div key={line.line} className={css['partialLine']} data-asked={line.asked}>
          {line.asked ? (
            <ShareField line={line} share={props.shares.get(line.line)} onShare={props.onShare} />
          ) : (
            <span>
              {line.text} <span className="t1 dusty">{t('partial.follows')}</span>
            </span>
          )}
          <Amount word={t('partial.whole')} minor={line.wholeMinor} />
          <Amount word={t('partial.billed')} minor={line.billedMinor} />
          <Amount word={t('partial.now')} minor={line.nowMinor} strong />
        </div>
      ))}
      <p className="t1 dusty">{t('partial.amounts', { tax: plan.taxIncluded ? 'with' : 'before' })}</p>
    </section>
  );
}

function ShareField(props: {
  readonly line: PartialLineView;
  readonly share: Ppm | undefined;
  readonly onShare: Props['onShare'];
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { line, share } = props;
  return (
    <NumberField
      label={line.text}
      hint={t('partial.doneHint', { share: amountText(percent(manner, line.donePpm / PPM)) })}
      unit="%"
      digits={2}
      step={5}
      min={0}
      max={100}
      value={Math.round((share ?? 0) / 100) / 100}
      onChange={(value) => props.onShare(line.line, Math.round((value ?? 0) * PPM_PER_CENT) as Ppm)}
    />
  );
}

function Amount(props: {
  readonly word: string;
  readonly minor: number;
  readonly strong?: boolean;
}): ReactNode {
  const manner = useManner();
  const shown = props.minor === 0 ? '–' : moneyPlain(manner, props.minor);
  return (
    <span className={css['end']}>
      <span className="unseen">{props.word} </span>
      {props.strong && props.minor !== 0 ? <b>{shown}</b> : <span className="quiet">{shown}</span>}
    </span>
  );
}
