import type { ReactNode } from 'react';
import { hours, money, moneyPlain } from '#core/shared/text/format.ts';
import type { QuoteOptionView, QuoteView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { TapeLine } from '../../ui/TapeLine.tsx';
import css from './billing.module.css';
import { OptionCars } from './OptionCars.tsx';
import { OptionHead } from './OptionHead.tsx';
import { type Cell, quoteRows } from './quoteRows.ts';
import { ThreeOptions } from './ThreeOptions.tsx';

/** The options side by side, the same work on the same line; two lie either side of the tape. */
export function QuoteCompare(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const { options, vehicle, acceptance } = props.quote;
  const agreed = acceptance?.letter ?? null;
  const [a, b = null] = options;
  if (!a) return null;
  if (options.length > 2) return <ThreeOptions body={vehicle.body} options={options} agreed={agreed} />;
  return (
    <>
      <div className={css['options']} data-two={b !== null}>
        <OptionHead option={a} side="a" agreed={a.letter === agreed} />
        <OptionCars body={vehicle.body} a={a} b={b} />
        {b ? <OptionHead option={b} side="b" agreed={b.letter === agreed} /> : null}
      </div>
      <div className={css['compare']}>
        {b ? <TapeLine value={0.5} label={t('quote.compareWith')} /> : null}
        <Lines a={a} b={b} />
      </div>
    </>
  );
}

function Lines(props: { readonly a: QuoteOptionView; readonly b: QuoteOptionView | null }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { a, b } = props;
  return quoteRows(b ? [a, b] : [a], t, manner).map((row) => (
    <Line
      key={row.key}
      label={row.label}
      a={row.cells[0] ?? null}
      b={row.cells[1] ?? null}
      two={b !== null}
      big={row.big}
    />
  ));
}

function Line(props: {
  readonly label: string;
  readonly a: Cell;
  readonly b: Cell;
  readonly two: boolean;
  readonly big: boolean;
}): ReactNode {
  const manner = useManner();
  const { a, b, big } = props;
  const written = (cell: Cell): string => {
    if (!cell) return '–';
    return big ? money(manner, cell.minor) : moneyPlain(manner, cell.minor);
  };
  const time = (cell: Cell): ReactNode =>
    cell && cell.minutes > 0 ? <Figure amount={hours(manner, cell.minutes)} /> : null;
  // What takes no time has the room of its hours: things are called by more words than work is.
  const noTime = !a || a.minutes === 0;
  const more = (b?.minor ?? 0) - (a?.minor ?? 0);
  return (
    <div className={css['line']} data-sum={big} data-two={props.two}>
      <span className={css['what']} data-wide={noTime}>
        {props.label}
      </span>
      {noTime ? null : <span className={css['hours']}>{time(a)}</span>}
      <span className={css['money']} data-side="a">
        {written(a)}
      </span>
      {props.two ? (
        <>
          <span className={css['money']} data-side="b">
            {written(b)}
          </span>
          <span className={css['hours']}>{time(b)}</span>
          <span className={css['diff']}>
            {more === 0 ? '' : `${more > 0 ? '+ ' : '− '}${moneyPlain(manner, Math.abs(more))}`}
          </span>
        </>
      ) : null}
    </div>
  );
}
