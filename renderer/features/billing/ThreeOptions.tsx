import type { ReactNode } from 'react';
import { hours, money, moneyPlain } from '#core/shared/text/format.ts';
import type { OptionLetter, QuoteOptionView } from '#core/shared/views/billing.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import css from './billing.module.css';
import { CarLegend, OptionCar } from './OptionCars.tsx';
import { OptionHead } from './OptionHead.tsx';
import { type Cell, type QuoteRow, quoteRows } from './quoteRows.ts';

/** Three options in columns of their own, each under its car. */
export function ThreeOptions(props: {
  readonly body: BodyStyle;
  readonly options: readonly QuoteOptionView[];
  readonly agreed: OptionLetter | null;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { body, options, agreed } = props;
  return (
    <div className={css['three']}>
      <div className={css['threeHeads']}>
        <CarLegend />
        {options.map((option) => (
          <div key={option.letter}>
            <OptionCar body={body} option={option} />
            <OptionHead option={option} side="b" agreed={option.letter === agreed} />
          </div>
        ))}
      </div>
      {quoteRows(options, t, manner).map((row) => (
        <ThreeLine key={row.key} row={row} options={options} />
      ))}
    </div>
  );
}

function ThreeLine(props: {
  readonly row: QuoteRow;
  readonly options: readonly QuoteOptionView[];
}): ReactNode {
  const { row, options } = props;
  return (
    <div className={css['threeLine']} data-sum={row.big}>
      <span className={css['what']}>{row.label}</span>
      {options.map((option, i) => (
        <CellShown key={option.letter} cell={row.cells[i] ?? null} big={row.big} />
      ))}
    </div>
  );
}

function CellShown(props: { readonly cell: Cell; readonly big: boolean }): ReactNode {
  const manner = useManner();
  const { cell, big } = props;
  return (
    <span className={css['threeCell']}>
      <span className={css['hours']}>
        {cell && cell.minutes > 0 ? <Figure amount={hours(manner, cell.minutes)} /> : null}
      </span>
      <span className={css['money']}>
        {cell ? (big ? money(manner, cell.minor) : moneyPlain(manner, cell.minor)) : '–'}
      </span>
    </span>
  );
}
