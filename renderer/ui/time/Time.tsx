import type { ReactNode } from 'react';
import type { Form } from '../charts/Bars.tsx';
import type { TimeScale } from './scale.ts';
import css from './Time.module.css';

export type Tick = { readonly at: number; readonly label: string; readonly strong?: boolean };

function percent(share: number): string {
  return `${(share * 100).toFixed(3)}%`;
}

/** The head of a stretch of time: its hours or days. `align="start"` writes to the right of the tick. */
export function DayRail(props: {
  readonly scale: TimeScale;
  readonly ticks: readonly Tick[];
  readonly align?: 'middle' | 'start';
}): ReactNode {
  return (
    <div className={css['rail']} aria-hidden="true">
      {props.ticks.map((tick) => (
        <span
          key={tick.at}
          className={css['tick']}
          data-align={props.align ?? 'middle'}
          data-strong={tick.strong ?? false}
          style={{ left: percent(props.scale.at(tick.at)) }}
        >
          {tick.label}
        </span>
      ))}
    </div>
  );
}

/** Faint uprights at ticks, and closed stretches hatched; lies behind blocks in a positioned box. */
export function TimeLines(props: { readonly scale: TimeScale; readonly ticks: readonly Tick[] }): ReactNode {
  return (
    <div className={css['lines']} aria-hidden="true">
      {props.scale.pieces
        .filter((piece) => !piece.open)
        .map((piece) => (
          <b
            key={piece.from}
            data-form="away"
            style={{ left: percent(piece.left), width: percent(piece.right - piece.left) }}
          />
        ))}
      {props.ticks.map((tick) => (
        <i key={tick.at} style={{ left: percent(props.scale.at(tick.at)) }} />
      ))}
    </div>
  );
}

/** The present: a line of light over the full height of its box. */
export function NowLine(props: {
  readonly scale: TimeScale;
  readonly at: number;
  readonly label?: string;
}): ReactNode {
  if (props.at < props.scale.from || props.at > props.scale.to) return null;
  return (
    <div className={css['now']} style={{ left: percent(props.scale.at(props.at)) }}>
      {props.label ? <span>{props.label}</span> : null}
    </div>
  );
}

/** A promise: a flag on its pole. Lit when it is at risk. */
export function Flag(props: {
  readonly scale: TimeScale;
  readonly at: number;
  readonly label?: string;
  readonly lit?: boolean;
}): ReactNode {
  return (
    <div
      className={css['flag']}
      data-lit={props.lit ?? false}
      style={{ left: percent(props.scale.at(props.at)) }}
    >
      {props.label ? <span>{props.label}</span> : null}
    </div>
  );
}

/** A stretch of work in its form, with what it is written in it where there is room. */
export function Block(props: {
  readonly scale: TimeScale;
  readonly from: number;
  readonly to: number;
  readonly form: Form;
  readonly top?: number;
  readonly height: number;
  readonly title?: string;
  readonly children?: ReactNode;
}): ReactNode {
  const left = props.scale.at(props.from);
  return (
    <div
      className={css['block']}
      data-form={props.form}
      title={props.title}
      style={{
        left: percent(left),
        width: percent(props.scale.at(props.to) - left),
        top: props.top ?? 0,
        height: props.height,
        lineHeight: `${props.height}px`,
      }}
    >
      {props.children}
    </div>
  );
}
