import type { ReactNode } from 'react';
import css from './Charts.module.css';

/** A level looking forward: `low` and `high` are the band around it at the same time. */
export type LevelPoint = {
  readonly at: number;
  readonly level: number;
  readonly low?: number;
  readonly high?: number;
};

const WIDTH = 300;

/** A level running down: its band, the reorder line, arrivals in cool; lit from where it is used up, hatched until more comes. */
export function RunOut(props: {
  readonly label: string;
  readonly points: readonly LevelPoint[];
  readonly from: number;
  readonly to: number;
  readonly reorder?: number | null;
  readonly outAt?: number | null;
  readonly arrivals?: readonly number[];
  readonly height?: number;
}): ReactNode {
  const height = props.height ?? 40;
  const top = Math.max(1, props.reorder ?? 0, ...props.points.map((p) => p.high ?? p.level));
  const x = (at: number): string => (((at - props.from) / (props.to - props.from || 1)) * WIDTH).toFixed(1);
  const y = (level: number): string => (height - 3 - (Math.max(0, level) / top) * (height - 8)).toFixed(1);
  const upper = props.points.map((p) => `${x(p.at)} ${y(p.high ?? p.level)}`);
  const lower = props.points.map((p) => `${x(p.at)} ${y(p.low ?? p.level)}`).reverse();
  const line = props.points.map((p) => `${x(p.at)} ${y(p.level)}`).join('L');
  const out = props.outAt ?? null;
  const lackUntil = props.arrivals?.find((at) => out !== null && at > out) ?? props.to;
  return (
    <svg
      className={css['chart']}
      style={{ height }}
      viewBox={`0 0 ${WIDTH} ${height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={props.label}
    >
      {upper.length > 1 ? <path className={css['band']} d={`M${[...upper, ...lower].join('L')}Z`} /> : null}
      {out === null ? null : (
        <rect
          className={css['risk']}
          x={x(out)}
          y={height - 11}
          width={Math.max(0, Number(x(lackUntil)) - Number(x(out)))}
          height={8}
        />
      )}
      <path className={css['axis']} d={`M0 ${height - 2.5}H${WIDTH}`} />
      {props.reorder ? <path className={css['reorder']} d={`M0 ${y(props.reorder)}H${WIDTH}`} /> : null}
      {line === '' ? null : <path className={css['rise']} d={`M${line}`} />}
      {props.arrivals?.map((at) => (
        <path key={at} className={css['arrival']} d={`M${x(at)} 2V${height - 2}`} />
      ))}
      {out === null ? null : <path className={css['out']} d={`M${x(out)} 0V${height - 2}`} />}
    </svg>
  );
}
