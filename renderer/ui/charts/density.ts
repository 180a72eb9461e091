/** A finishing time as quantiles: half, 80 % and 95 % of like cases are done by then. Any time unit. */
export type Quantiles = { readonly p50: number; readonly p80: number; readonly p95: number };

/** Standard normal quantiles of 0.8 and 0.95. @source NIST/SEMATECH e-Handbook, table of the normal distribution */
const Z80 = 0.8416;
const Z95 = 1.6449;

/** A hill narrower than this part of the shown stretch is a line that nobody sees. */
const NARROWEST = 1 / 50;
/** The tail of a hill at most as long as this, in times from half to 80 %: with a longer one its top has no width. */
const LONGEST_TAIL = 3;

/**
 * The same finishing time for a picture of a long stretch: where nearly all are done within minutes of an opening and
 * the rest a day later, a hill just wide enough to be seen stands where half are done. Only the picture is rounded.
 */
export function seenQuantiles({ p50, p80, p95 }: Quantiles, stretch: number): Quantiles {
  const near = Math.max(p80 - p50, stretch * NARROWEST);
  return { p50, p80: p50 + near, p95: p50 + Math.min(Math.max(p95 - p50, near * 2), near * LONGEST_TAIL) };
}

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
