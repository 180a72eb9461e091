import { type ReactNode, useMemo } from 'react';
import css from './Charts.module.css';
import { densityOf, type Quantiles, seenQuantiles } from './density.ts';

const WIDTH = 340;
const POINTS = 90;
/** Where the curve leaves the ground. */
function leftFoot(quantiles: Quantiles): number {
  const density = densityOf(quantiles);
  const stride = (quantiles.p95 - quantiles.p50) / 20 || 1;
  let at = quantiles.p50;
  while (density(at) > 0.01 && at > quantiles.p50 - 80 * stride) at -= stride;
  return at - stride;
}

/** Where the curve is drawn through: evenly, and closer on the hill, which is narrow in a stretch of days. */
function pointsOf(quantiles: Quantiles, from: number, to: number): readonly number[] {
  const evenly = (a: number, b: number): number[] =>
    Array.from({ length: POINTS + 1 }, (_, i) => a + ((b - a) * i) / POINTS);
  const hill = evenly(leftFoot(quantiles), quantiles.p95).filter((at) => from <= at && at <= to);
  return [...evenly(from, to), ...hill].sort((a, b) => a - b);
}

/** The finishing time as a curve; the upright line is the promise, what is hatched after it is the risk. */
export function Curve(props: {
  readonly quantiles: Quantiles;
  readonly promise: number;
  /** Ends of the shown stretch; by default around the quantiles and the promise. */
  readonly from?: number;
  readonly to?: number;
  readonly height?: number;
  /** The promise needs somebody. */
  readonly lit?: boolean;
  readonly label: string;
}): ReactNode {
  const { quantiles, promise } = props;
  const height = props.height ?? 44;
  const spread = quantiles.p95 - quantiles.p50;
  const from = props.from ?? Math.min(leftFoot(quantiles), promise - spread * 0.2);
  const to = props.to ?? Math.max(quantiles.p95 + spread * 0.5, promise + spread * 0.2);
  const drawn = useMemo(() => {
    const seen = seenQuantiles(quantiles, to - from);
    const density = densityOf(seen);
    const x = (at: number): number => ((at - from) / (to - from)) * WIDTH;
    const y = (at: number): number => height - 6 - density(at) * (height - 10);
    const points = pointsOf(seen, from, to);
    const write = (list: readonly number[]): string =>
      list.map((at) => `${x(at).toFixed(1)} ${y(at).toFixed(1)}`).join('L');
    const before = [...points.filter((at) => at < promise), promise];
    const after = [promise, ...points.filter((at) => at > promise)];
    return { x: x(promise), before: write(before), after: write(after), all: write(points) };
  }, [quantiles, promise, from, to, height]);
  const foot = height - 6;
  return (
    <svg
      className={css['chart']}
      data-lit={props.lit ?? false}
      style={{ height }}
      viewBox={`0 0 ${WIDTH} ${height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={props.label}
    >
      <path className={css['body']} d={`M0 ${foot}L${drawn.before}L${drawn.x} ${foot}Z`} />
      <path className={css['risk']} d={`M${drawn.x} ${foot}L${drawn.after}L${WIDTH} ${foot}Z`} />
      <path className={css['line']} d={`M${drawn.all}`} />
      <path className={css['axis']} d={`M0 ${foot + 0.5}H${WIDTH}`} />
      <path className={css['mark']} d={`M${drawn.x} 0V${height}`} />
    </svg>
  );
}
