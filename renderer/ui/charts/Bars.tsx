import type { ReactNode } from 'react';
import css from './Charts.module.css';

/** The forms of forms.css. */
export type Form =
  | 'done'
  | 'work'
  | 'plan'
  | 'cure'
  | 'offer'
  | 'late'
  | 'waits'
  | 'hatch'
  | 'away'
  | 'ghost'
  | 'cross'
  | 'lit';
export type Part = { readonly form: Form; readonly value: number; readonly label: string };

/** One bar of parts that add up; a part of nothing is left out. `of` is the whole the width stands for. */
export function PartBar(props: {
  readonly label: string;
  readonly parts: readonly Part[];
  readonly of?: number;
  readonly height?: number;
}): ReactNode {
  const whole = props.of ?? props.parts.reduce((sum, part) => sum + part.value, 0);
  return (
    <div className={css['bar']} role="img" aria-label={props.label} style={{ height: props.height ?? 18 }}>
      {props.parts
        .filter((part) => part.value > 0)
        .map((part) => (
          <span
            key={part.label}
            data-form={part.form}
            title={part.label}
            style={{ width: `${(part.value / (whole || 1)) * 100}%` }}
          />
        ))}
    </div>
  );
}

/** A range with its middle marked, on a shared scale from `from` to `to`. */
export function Interval(props: {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
  readonly from: number;
  readonly to: number;
  readonly form?: Form;
  readonly lit?: boolean;
  readonly label: string;
}): ReactNode {
  const at = (v: number): number =>
    Math.min(100, Math.max(0, ((v - props.from) / (props.to - props.from || 1)) * 100));
  return (
    <div className={css['interval']} role="img" aria-label={props.label} title={props.label}>
      <i
        data-form={props.form ?? 'done'}
        style={{ left: `${at(props.low)}%`, width: `${at(props.high) - at(props.low)}%` }}
      />
      <b data-lit={props.lit ?? false} style={{ left: `${at(props.mid)}%` }} />
    </div>
  );
}

/** What the forms of a drawing mean: a small swatch and a word each. */
export function Key(props: {
  readonly entries: readonly { readonly form: Form; readonly label: string }[];
}): ReactNode {
  return (
    <div className={css['key']}>
      {props.entries.map((entry) => (
        <span key={entry.label}>
          <i data-form={entry.form} aria-hidden="true" />
          {entry.label}
        </span>
      ))}
    </div>
  );
}
