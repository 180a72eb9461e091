import { isUnsold } from '../shared/stockList.ts';
import { addLocalDays } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { StockItemRow } from '../shared/views/stock.ts';
import { bandOf } from '../stock/rules/projection.ts';
import type { Judged } from './stockJudge.ts';
import type { Forward, Outlook } from './stockOutlook.ts';

/** What waits for somebody about an item: a count that was opened, an order that comes too late. */
export type Waits = { readonly countOpen: boolean; readonly chased: boolean };

/** One item as the list shows it. */
export function itemView(
  of: Outlook,
  forward: Forward,
  days: number,
  judged: Judged | null,
  waits: Waits,
): StockItemRow {
  const { item } = of;
  const { booked, onOrder, arrivals } = within(of, forward.today, days);
  const { runOut } = of.projected;
  const runOutDay = runOut !== null && runOut < days ? addLocalDays(forward.today, runOut) : null;
  const packPriceMinor = judged?.link.priceMinor ?? null;
  const reusable = item.reusable === 1;
  const unsold = isUnsold({ runOutDay, packPriceMinor, reusable });
  return {
    id: item.id,
    name: item.name,
    material: item.material,
    unit: item.unit,
    reusable,
    place: item.place,
    packSize: judged?.link.packSize ?? item.packSize,
    packWord: item.packWord,
    packPriceMinor,
    onHand: item.onHand,
    booked: Math.round(booked),
    available: Math.round(item.onHand - booked),
    onOrder,
    valueMinor: item.valueMinor,
    runOutDay,
    orderByDay: judged && orderByWithin(judged, forward.today, days),
    reorderPoint: Math.round(judged?.answer.reorderPoint ?? 0),
    countOpen: waits.countOpen,
    needsHand: waits.countOpen || waits.chased || unsold || (judged?.answer.order ?? false),
    arrivals,
    series: seriesOf(of, days),
  };
}

function seriesOf(of: Outlook, days: number): StockItemRow['series'] {
  const { low, mid, high } = bandOf(of.projected);
  return { low: low.slice(0, days), mid: mid.slice(0, days), high: high.slice(0, days) };
}

/** Today only where it is proposed today: what lacks room on the shelf is not asked for twice. */
function orderByWithin({ orderBy, answer }: Judged, today: LocalDay, days: number): LocalDay | null {
  if (orderBy === null || orderBy >= addLocalDays(today, days)) return null;
  return orderBy > today || answer.order ? orderBy : null;
}

/** What is booked, what is on order and on which days it comes, within the days shown. */
function within(of: Outlook, today: LocalDay, days: number) {
  let booked = 0;
  let onOrder = 0;
  const arrivals: LocalDay[] = [];
  for (let k = 0; k < days; k += 1) {
    booked += of.booked[k] ?? 0;
    onOrder += of.arrivals[k] ?? 0;
    if ((of.arrivals[k] ?? 0) > 0) arrivals.push(addLocalDays(today, k));
  }
  return { booked, onOrder, arrivals };
}
