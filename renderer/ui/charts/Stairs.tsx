import type { ReactNode } from 'react';
import { TapeLine } from '../TapeLine.tsx';
import css from './Charts.module.css';

/** One step of a stair: what it costs in all up to here, what it reaches, and what it adds. */
export type Step = { readonly x: number; readonly y: number; readonly label: string };

type StairsProps = {
  readonly label: string;
  /** Rising in x; y from 0 to 1. */
  readonly steps: readonly Step[];
  readonly from: number;
  readonly to: number;
  readonly value: number;
  readonly onChange?: (value: number) => void;
  /** Lets the tape lie anywhere, not only on steps: a ceiling as it was said. */
  readonly free?: boolean;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
  readonly said?: string;
};

/** Where a value lies across, 0 to 1, and a result from the top, in per cent of the height. */
type Plot = { readonly share: (x: number) => number; readonly top: (y: number) => number };

/**
 * A stair of best results: each step the most that can be had for its cost. The tape lies on the ceiling and
 * snaps to steps; what is left of it is taken, the rest is dashed.
 */
export function Stairs(props: StairsProps): ReactNode {
  const { from, to, steps, value, onChange } = props;
  const share = (x: number): number => Math.min(1, Math.max(0, (x - from) / (to - from || 1)));
  const plot: Plot = { share, top: (y) => 92 - y * 70 };
  return (
    <div className={css['stairs']}>
      <div className={css['plot']}>
        <Rise {...props} plot={plot} />
        <StepLabels {...props} plot={plot} />
        <TapeLine
          label={props.label}
          value={share(value)}
          {...(props.said ? { said: props.said } : {})}
          {...(props.free ? {} : { snap: steps.map((s) => share(s.x)) })}
          {...(onChange ? { onChange: (v: number) => onChange(snapped(v, props)) } : {})}
        />
      </div>
      <div className={css['ticks']} aria-hidden="true">
        {props.ticks.map((tick, i) => (
          <span
            key={tick.at}
            data-end={i === 0 ? 'first' : i === props.ticks.length - 1 ? 'last' : undefined}
            style={{ left: `${share(tick.at) * 100}%` }}
          >
            {tick.label}
          </span>
        ))}
      </div>
    </div>
  );
}

function isTaken(step: Step, value: number): boolean {
  return step.x <= value + 1e-9;
}

function Rise(props: StairsProps & { readonly plot: Plot }): ReactNode {
  const { from, to, steps, value } = props;
  const { share, top } = props.plot;
  const line = (list: readonly Step[], startY: number, startX: number, endX: number): string =>
    `M${share(startX) * 100} ${top(startY)}${list
      .map((s) => `H${share(s.x) * 100}V${top(s.y)}`)
      .join('')}H${share(endX) * 100}`;
  const taken = steps.filter((s) => isTaken(s, value));
  const rest = steps.filter((s) => !isTaken(s, value));
  const rise = line(taken, 0, from, value);
  return (
    <svg viewBox="0 0 100 100" preserveAspectRatio="none" role="img" aria-label={props.label}>
      <path className={css['under']} d={`${rise}V100H0Z`} />
      <path className={css['rest']} d={line(rest, taken.at(-1)?.y ?? 0, value, to)} />
      <path className={css['rise']} d={rise} />
    </svg>
  );
}

function StepLabels(props: StairsProps & { readonly plot: Plot }): ReactNode {
  const { share, top } = props.plot;
  return props.steps.map((s, i) => {
    const next = props.steps[i + 1]?.x ?? props.to;
    return (
      <span
        key={s.label + s.x}
        className={css['stepLabel']}
        data-in={isTaken(s, props.value)}
        style={{
          left: `calc(${share(s.x) * 100}% + 4px)`,
          top: `${top(s.y)}%`,
          maxWidth: `calc(${(share(next) - share(s.x)) * 100}% - 6px)`,
        }}
        title={s.label}
      >
        {s.label}
      </span>
    );
  });
}

/** Back from a share of the width to the value, exactly the step's own where it lies on one. */
function snapped(at: number, props: StairsProps): number {
  const value = props.from + at * (props.to - props.from);
  if (props.free || props.steps.length === 0) return value;
  return props.steps.reduce(
    (best, s) => (Math.abs(s.x - value) < Math.abs(best - value) ? s.x : best),
    Infinity,
  );
}
