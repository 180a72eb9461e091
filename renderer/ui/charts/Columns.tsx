import { scaleBand, scaleLinear } from 'd3-scale';
import type { ReactNode } from 'react';
import css from './Columns.module.css';
import { type ColumnHead, headLines } from './heads.ts';

/** One column: its height in the chart's unit, what stands under it, and what it says. */
export type ColumnMark = ColumnHead & {
  readonly key: string;
  /** Null draws nothing: there was nothing to measure. */
  readonly value: number | null;
  readonly said: string;
  readonly lit?: boolean;
};

const [WIDTH, HEIGHT] = [600, 120];
const MOST_HEADS = 14;

/**
 * Columns over time from a base line, up or down. Told by height and, where lit, by a hatch, so that it needs no colour;
 * a line across says where they should be. The table behind it stands elsewhere on the page.
 */
export function Columns(props: {
  readonly label: string;
  readonly columns: readonly ColumnMark[];
  readonly base?: number;
  /** A line across: where the columns should end. */
  readonly line?: { readonly at: number; readonly label: string };
  readonly format: (value: number) => string;
}): ReactNode {
  const base = props.base ?? 0;
  const values = props.columns.flatMap((c) => c.value ?? []);
  const ends = [base, ...values, ...(props.line ? [props.line.at] : [])];
  const y = scaleLinear([Math.min(...ends), Math.max(...ends, base + 1)], [HEIGHT, 0]).nice(4);
  const x = scaleBand(
    props.columns.map((c) => c.key),
    [0, WIDTH],
  ).padding(0.25);
  const step = Math.max(1, Math.ceil(props.columns.length / MOST_HEADS));
  return (
    <figure className={css['figure']}>
      <div className={css['scale']} aria-hidden="true">
        {y.ticks(4).map((at) => (
          <span key={at} style={{ top: `${(y(at) / HEIGHT) * 100}%` }}>
            {props.format(at)}
          </span>
        ))}
      </div>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" role="img" aria-label={props.label}>
        {y.ticks(4).map((at) => (
          <path key={at} className={css['rule']} d={`M0 ${y(at)}H${WIDTH}`} />
        ))}
        {props.columns.map((c) =>
          c.value === null ? null : (
            <rect
              key={c.key}
              className={css['column']}
              data-lit={c.lit ?? false}
              x={x(c.key)}
              width={x.bandwidth()}
              y={Math.min(y(base), y(c.value))}
              height={Math.max(1, Math.abs(y(c.value) - y(base)))}
            >
              <title>{c.said}</title>
            </rect>
          ),
        )}
        <path className={css['base']} d={`M0 ${y(base)}H${WIDTH}`} />
        {props.line ? <path className={css['line']} d={`M0 ${y(props.line.at)}H${WIDTH}`} /> : null}
      </svg>
      <div className={css['heads']} data-few={step > 1} aria-hidden="true">
        {headLines(props.columns, step).map((lines, i) => (
          <span key={props.columns[i]?.key}>{lines}</span>
        ))}
      </div>
      {props.line ? <figcaption>{props.line.label}</figcaption> : null}
    </figure>
  );
}
