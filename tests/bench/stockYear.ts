import { worldOf, YEAR } from '../helpers/stockWorld.ts';
import { HALF, LEVEL, ownRule, play, tunedMinMax, type Year } from '../helpers/stockYear.ts';
import type { BenchRow } from './measure.ts';

const ITEMS = 50;
const SEEDS = 20;

/** Half a year held back, 50 items × 20 seeds: what the shop's rule serves and costs, beside a tuned min/max. */
export async function rows(): Promise<readonly BenchRow[]> {
  const own: Year[] = [];
  const tuned: Year[] = [];
  for (let seed = 1; seed <= SEEDS; seed += 1) {
    const world = worldOf(seed, ITEMS);
    for (let i = 0; i < ITEMS; i += 1) {
      own.push(play(world, i, ownRule(world, i), HALF, YEAR));
      tuned.push(play(world, i, tunedMinMax(world, i), HALF, YEAR));
    }
  }
  const money = (years: readonly Year[]): string =>
    `${Math.round(years.reduce((sum, y) => sum + y.costMinor, 0) / 100 / SEEDS).toLocaleString('en')} a half-year`;
  return [
    {
      what: `served over ${ITEMS} items × ${SEEDS} seeds, half a year held back`,
      measured: share(own),
      beside: `${share(tuned)} by a min/max tuned on the half before`,
      asked: `${LEVEL * 100} % ± 2 %`,
    },
    ...aims(),
    {
      what: 'orders that came before anything ran out, the same',
      measured: inTime(own),
      beside: `${inTime(tuned)} by min/max`,
    },
    { what: 'orders and keeping, the same', measured: money(own), beside: `${money(tuned)} by min/max` },
  ];
}

/** The lowest and the highest share that a shop can aim at, and some between. */
function aims(): readonly BenchRow[] {
  return [0.98, 0.99, 0.999].map((level) => {
    const years: Year[] = [];
    for (let seed = 1; seed <= SEEDS / 4; seed += 1) {
      const world = worldOf(seed, ITEMS);
      for (let i = 0; i < ITEMS; i += 1) years.push(play(world, i, ownRule(world, i, level), HALF, YEAR));
    }
    return {
      what: `the same aimed at ${level * 100} %, ${SEEDS / 4} seeds`,
      measured: share(years),
      asked: `${level * 100} % ± 2 %`,
    };
  });
}

function inTime(years: readonly Year[]): string {
  const waits = years.reduce((sum, y) => sum + y.waits, 0);
  const short = years.reduce((sum, y) => sum + y.shortWaits, 0);
  return `${((100 * (waits - short)) / waits).toFixed(1)} %`;
}

/** Mean over the items of the share of what was asked that was there. */
function share(years: readonly Year[]): string {
  const fills = years.filter((y) => y.asked > 0).map((y) => y.served / y.asked);
  return `${((100 * fills.reduce((a, b) => a + b, 0)) / fills.length).toFixed(2)} %`;
}
