import { type ReactNode, useState } from 'react';
import { LINE_KINDS, type LineKind } from '#core/shared/bill.ts';
import { hours, hoursRange, money, moneyPlain, percent } from '#core/shared/text/format.ts';
import { PPM } from '#core/shared/units.ts';
import type { OptionLetter, QuoteOptionView, QuoteView } from '#core/shared/views/billing.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { TapeLine } from '../../ui/TapeLine.tsx';
import css from './billing.module.css';
import { OptionCars } from './OptionCars.tsx';

type Cell = { readonly minutes: number; readonly minor: number } | null;

/** Option A on the left of the tape, another on its right, the same work on the same line. */
export function QuoteCompare(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const { options, vehicle } = props.quote;
  const [right, setRight] = useState<OptionLetter>('B');
  const a = options[0];
  if (!a) return null;
  const b = options.find((o) => o.letter === right) ?? options[1] ?? null;
  return (
    <>
      {options.length > 2 ? (
        <Words
          label={t('quote.compareWith')}
          value={right}
          onChange={setRight}
          options={options.slice(1).map((o) => ({ value: o.letter, label: `${o.letter} ${o.title}` }))}
        />
      ) : null}
      <div className={css['options']} data-two={b !== null}>
        <OptionHead option={a} side="a" />
        <OptionCars body={vehicle.body} a={a} b={b} />
        {b ? <OptionHead option={b} side="b" /> : null}
      </div>
      <div className={css['compare']}>
        {b ? <TapeLine value={0.5} label={t('quote.compareWith')} /> : null}
        <Lines a={a} b={b} />
      </div>
    </>
  );
}

function OptionHead(props: { readonly option: QuoteOptionView; readonly side: 'a' | 'b' }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { option } = props;
  return (
    <section
      className={css['option']}
      data-side={props.side}
      aria-label={t('quote.option', { letter: option.letter })}
    >
      <div className="t4">{option.letter}</div>
      <div className="strong">{option.title}</div>
      <div>
        <Figure
          amount={hours(manner, option.hours.p50Min)}
          range={hoursRange(manner, option.hours.p20Min, option.hours.p80Min)}
        />
      </div>
      <div className="t1 dusty">{t('quote.pricedAt', { hours: hours(manner, option.chargedMin).value })}</div>
      <div className="quiet">
        {t('quote.comesOut', { share: percent(manner, option.gainPpm / PPM).value })}
      </div>
    </section>
  );
}

function cellOf(option: QuoteOptionView, what: LineKind): Cell {
  let [minutes, minor, found] = [0, 0, false];
  option.bill.lines.forEach((line, i) => {
    if (line.what !== what) return;
    found = true;
    minutes += line.unit === 'min' ? line.quantity : 0;
    minor += option.totals.lineShownMinor[i] ?? 0;
  });
  return found ? { minutes, minor } : null;
}

function Lines(props: { readonly a: QuoteOptionView; readonly b: QuoteOptionView | null }): ReactNode {
  const t = useText();
  const { a, b } = props;
  const both = b ? [a, b] : [a];
  const kinds = LINE_KINDS.filter((what) => both.some((o) => o.bill.lines.some((l) => l.what === what)));
  const text = (what: LineKind): string =>
    both.flatMap((o) => o.bill.lines).find((l) => l.what === what)?.text ?? '';
  const sum = (of: (o: QuoteOptionView) => number): readonly [Cell, Cell] => [
    { minutes: 0, minor: of(a) },
    b ? { minutes: 0, minor: of(b) } : null,
  ];
  const tax = a.totals.taxes[0]?.name ?? '';
  return (
    <>
      {kinds.map((what) => (
        <Line
          key={what}
          label={text(what)}
          a={cellOf(a, what)}
          b={b ? cellOf(b, what) : null}
          two={b !== null}
        />
      ))}
      <Both label={t('quote.beforeTax')} cells={sum((o) => o.totals.netMinor)} />
      <Both label={tax} cells={sum((o) => o.totals.taxMinor)} />
      {both.some((o) => o.totals.roundingMinor !== 0) ? (
        <Both label={t('invoice.rounding')} cells={sum((o) => o.totals.roundingMinor)} />
      ) : null}
      <Both label={t('quote.toPay')} cells={sum((o) => o.totals.toPayMinor)} big />
      <Both label={t('quote.depositNow')} cells={sum((o) => o.depositMinor)} />
    </>
  );
}

function Both(props: {
  readonly label: string;
  readonly cells: readonly [Cell, Cell];
  readonly big?: boolean;
}): ReactNode {
  const [a, b] = props.cells;
  return <Line label={props.label} a={a} b={b} two={b !== null} big={props.big ?? false} />;
}

function Line(props: {
  readonly label: string;
  readonly a: Cell;
  readonly b: Cell;
  readonly two: boolean;
  readonly big?: boolean;
}): ReactNode {
  const manner = useManner();
  const { a, b, big } = props;
  const written = (cell: Cell): string => {
    if (!cell) return '–';
    return big ? money(manner, cell.minor) : moneyPlain(manner, cell.minor);
  };
  const time = (cell: Cell): ReactNode =>
    cell && cell.minutes > 0 ? <Figure amount={hours(manner, cell.minutes)} /> : null;
  const more = (b?.minor ?? 0) - (a?.minor ?? 0);
  return (
    <div className={css['line']} data-sum={big ?? false} data-two={props.two}>
      <span className="cut">{props.label}</span>
      <span className={css['hours']}>{time(a)}</span>
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
