import type { LocalDay } from './units.ts';
import type { EstimateView } from './views/estimate.ts';
import type { PackageRow } from './views/shop.ts';
import type { BodyStyle } from './vocabulary.ts';

/** Whether a package is for what an estimate was made for: the same wish and extras, on such a body. */
export function fitsPackage(
  pack: Pick<PackageRow, 'wish' | 'interior' | 'protection' | 'bodies'>,
  estimate: Pick<EstimateView, 'wish' | 'asked'>,
  body: BodyStyle,
): boolean {
  const { interior, protection } = estimate.asked;
  const same = pack.wish === estimate.wish && pack.interior === interior && pack.protection === protection;
  return same && (pack.bodies.length === 0 || pack.bodies.includes(body));
}

/** The row of a package that stands on a day, else its first one later; `rows` of a name come latest first. */
export function packageNamed<Row extends Pick<PackageRow, 'name' | 'fromDay'>>(
  rows: readonly Row[],
  name: string,
  day: LocalDay,
): Row | undefined {
  const own = rows.filter((row) => row.name === name);
  return own.find((row) => row.fromDay <= day) ?? own.at(-1);
}
