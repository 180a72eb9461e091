import { type ReactNode, useId, useState } from 'react';
import type { Amount } from '#core/shared/text/manner.ts';
import { useText } from '../bridge/texts.tsx';
import css from './Figure.module.css';

/** What a figure rests on: its inputs, the rule that made it, where that comes from, and how it has held. */
export type Why = {
  readonly inputs: readonly { readonly label: ReactNode; readonly value?: ReactNode }[];
  readonly rule: ReactNode;
  readonly source: ReactNode;
  readonly check?: ReactNode;
};

type FigureLook = {
  readonly amount: Amount;
  /** P20–P80 beside the value, already written: `8.1–12.0`. */
  readonly range?: string | undefined;
  /** 2 in running text, 3 for heads and sums, 4 for the one figure of a page. */
  readonly size?: 2 | 3 | 4;
  readonly strong?: boolean;
  /** Lit: this figure needs somebody. */
  readonly lit?: boolean;
  readonly label?: string;
};

function Written(props: FigureLook): ReactNode {
  return (
    <>
      <span className={css['value']}>{props.amount.value}</span>
      {props.amount.unit === '' ? null : <span className="unit">{props.amount.unit}</span>}
      {props.range ? <span className="range">{props.range}</span> : null}
    </>
  );
}

/** A figure: value, unit smaller, range beside it. With `why` it opens in place and pushes what follows down. */
export function Figure(props: FigureLook & { readonly why?: Why | undefined }): ReactNode {
  const [open, setOpen] = useState(false);
  const t = useText();
  const id = useId();
  const look = { 'data-size': props.size ?? 2, 'data-strong': props.strong, 'data-lit': props.lit };
  if (!props.why)
    return (
      <span className={css['figure']} {...look}>
        <Written {...props} />
      </span>
    );
  return (
    <>
      <button
        type="button"
        className={`${css['figure']} ${css['open']}`}
        {...look}
        aria-expanded={open}
        aria-controls={open ? id : undefined}
        title={t('ui.why')}
        onClick={() => setOpen(!open)}
      >
        {props.label ? <span className="unseen">{props.label} </span> : null}
        <Written {...props} />
      </button>
      {open ? <WhyBox id={id} why={props.why} /> : null}
    </>
  );
}

/** The opened figure on its own, for places that keep the button elsewhere. */
export function WhyBox(props: { readonly id?: string; readonly why: Why }): ReactNode {
  const t = useText();
  const { why } = props;
  return (
    <div id={props.id} className={css['why']}>
      <table>
        <tbody>
          {why.inputs.map((input, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a fixed list that is never reordered
            <tr key={i}>
              {i === 0 ? (
                <th scope="rowgroup" rowSpan={why.inputs.length}>
                  {t('ui.inputs')}
                </th>
              ) : null}
              <td>{input.label}</td>
              <td>{input.value}</td>
            </tr>
          ))}
          <WhyRow head={t('ui.rule')}>{why.rule}</WhyRow>
          <WhyRow head={t('ui.source')}>{why.source}</WhyRow>
          {why.check ? <WhyRow head={t('ui.check')}>{why.check}</WhyRow> : null}
        </tbody>
      </table>
    </div>
  );
}

function WhyRow(props: { readonly head: string; readonly children: ReactNode }): ReactNode {
  return (
    <tr>
      <th scope="row">{props.head}</th>
      <td colSpan={2} style={{ textAlign: 'left', whiteSpace: 'normal', paddingLeft: 0 }}>
        {props.children}
      </td>
    </tr>
  );
}
