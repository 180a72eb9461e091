import { type ReactNode, useMemo } from 'react';
import css from './Charts.module.css';

/** A finishing time as quantiles: half, 80 % and 95 % of like cases are done by then. Any time unit. */
export type Quantiles = { readonly p50: number; readonly p80: number; readonly p95: number };

const WIDTH = 340;
const POINTS = 90;
/** Standard normal quantiles of 0.8 and 0.95. @source NIST/SEMATECH e-Handbook, table of the normal distribution */
const Z80 = 0.8416;
const Z95 = 1.6449;

/** A shifted lognormal through the three quantiles; its density, highest point 1. */
export function densityOf({ p50, p80, p95 }: Quantiles): (at: number) => number {
  const near = Math.max(1e-6, p80 - p50);
  const far = Math.max(near * (Z95 / Z80) * 1.01, p95 - p50);
  const ratio = (s: number): number => Math.expm1(s * Z95) / Math.expm1(s * Z80);
  let [low, high] = [0.02, 3];
  for (let i = 0; i < 40; i += 1) {
    const middle = (low + high) / 2;
    if (ratio(middle) < far / near) low = middle;
    else high = middle;
  }
  const sigma = (low + high) / 2;
  const scale = near / Math.expm1(sigma * Z80);
  const start = p50 - scale;
  const top = scale * Math.exp(-sigma * sigma);
  const raw = (x: number): number => Math.exp(-((Math.log(x / scale) / sigma) ** 2) / 2) / x;
  const peak = raw(top);
  return (at) => (at <= start ? 0 : raw(at - start) / peak);
}

/** Where the curve leaves the ground. */
function leftFoot(quantiles: Quantiles): number {
  const density = densityOf(quantiles);
  const stride = (quantiles.p95 - quantiles.p50) / 20 || 1;
  let at = quantiles.p50;
  while (density(at) > 0.01 && at > quantiles.p50 - 80 * stride) at -= stride;
  return at - stride;
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
    const density = densityOf(quantiles);
    const x = (at: number): number => ((at - from) / (to - from)) * WIDTH;
    const y = (at: number): number => height - 6 - density(at) * (height - 10);
    const points = Array.from({ length: POINTS + 1 }, (_, i) => from + ((to - from) * i) / POINTS);
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
