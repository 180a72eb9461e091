import { isOut } from '../shared/stockList.ts';
import { addLocalDays, localDaysBetween } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type { SuggestionView } from '../shared/views/stock.ts';
import type { Sentence, SentenceValue } from '../shared/views/stockSentence.ts';
import { COVER_DAYS } from '../stock/rules/suggest.ts';
import type { Judged } from './stockJudge.ts';
import type { Outlook } from './stockOutlook.ts';
import { reasonOf } from './stockReason.ts';

/** The suggestion as it is shown, with its sentence and its reasoning. */
export function suggestionOf(of: Outlook, today: LocalDay, judged: Judged): SuggestionView {
  const { link, supplier, answer } = judged;
  const { packs, priceMinor } = answer.quantity;
  return {
    itemId: of.item.id,
    itemName: of.item.name,
    supplierId: supplier.id,
    packs,
    packSize: link.packSize,
    packWord: of.item.packWord,
    unit: of.item.unit,
    packPriceMinor: priceMinor as Minor,
    totalMinor: (packs * priceMinor) as Minor,
    sentence: sentenceOf(of, today, judged),
    because: quantityBecause(of, judged),
    conflicts: conflictsOf(of, judged),
    reason: reasonOf(of, judged),
  };
}

function sentenceOf(of: Outlook, today: LocalDay, j: Judged): Sentence {
  const { item } = of;
  const { answer, link } = j;
  const amount = (value: number): SentenceValue => ({
    is: 'amount',
    amount: Math.round(value),
    unit: item.unit,
  });
  const day = (value: LocalDay): SentenceValue => ({ is: 'day', day: value });
  const lastBooked = lastIndex(of.booked);
  const runOut = of.projected.runOut;
  const values = {
    order: { is: 'packs', packs: answer.quantity.packs, packSize: link.packSize, unit: item.unit } as const,
    item: item.name,
    left: amount(Math.abs(item.onHand)),
    under: item.onHand < 0 ? 'yes' : isOut(item) ? 'none' : 'no',
    booked: amount(sumOf(of.booked)),
    byDay: day(addLocalDays(today, Math.max(0, lastBooked))),
    runOutDay: day(addLocalDays(today, runOut ?? 0)),
    belowDay: day(addLocalDays(today, lastsTo(of, j))),
    safety: amount(answer.safety),
    perWeek: amount(answer.perDay * 7),
    supplier: j.supplier.name,
    nextDay: day(j.nextDay),
    nextArrival: day(j.arrivesNextDay),
  };
  return { key: `stock.say.${sentenceKey(of, today, j, lastBooked >= 0)}`, values };
}

/** Why no more than the need is ordered, where too little is known of the use; or why it is more. */
function quantityBecause(of: Outlook, j: Judged): Sentence | null {
  const { days, usedDays } = of.usualUse;
  const { economic, need, packs, breakUsed } = j.answer.quantity;
  if (economic === null) return { key: 'stock.say.needOnly', values: { days, usedDays, cover: COVER_DAYS } };
  if (packs <= Math.max(1, need) || j.answer.perDay <= 0) return null;
  const weeks = Math.max(1, Math.round((packs * j.link.packSize) / j.answer.perDay / 7));
  return { key: `stock.say.${breakUsed ? 'priceBreak' : 'lot'}`, values: { need, packs, weeks } };
}

function sentenceKey(of: Outlook, today: LocalDay, j: Judged, someBooked: boolean): string {
  if (of.item.onHand <= 0 && !someBooked) return j.answer.perDay > 0 ? 'empty' : 'gone';
  const wait = localDaysBetween(today, j.nextDay);
  const below = lastsTo(of, j);
  if (wait > 4 && below > localDaysBetween(today, j.arrivesDay)) return 'shut';
  if (!someBooked) return nothingKept(of, j) ? 'usualOut' : 'usual';
  return of.projected.runOut !== null ? 'booked' : 'low';
}

/** The first day without enough: below what is kept back, or empty where a large lot may run short. */
function lastsTo(of: Outlook, j: Judged): number {
  const below = j.answer.below ?? 0;
  return j.answer.safety < 0 ? Math.min(below, of.projected.runOut ?? below) : below;
}

/** Ordered for a shelf that runs out, not for one that falls below what is kept back. */
function nothingKept(of: Outlook, j: Judged): boolean {
  return Math.round(j.answer.safety) <= 0 && of.projected.runOut !== null;
}

function sumOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k += 1) sum += values[k] ?? 0;
  return sum;
}

function lastIndex(values: ArrayLike<number>): number {
  let last = -1;
  for (let k = 0; k < values.length; k += 1) if ((values[k] ?? 0) > 0) last = k;
  return last;
}

function conflictsOf(of: Outlook, j: Judged): readonly Sentence[] {
  const q = j.answer.quantity;
  const unit = of.item.unit;
  return q.conflicts.map((c) => {
    const values: Record<string, SentenceValue> = {
      shelf: Math.floor((q.shelfLimit ?? 0) / j.link.packSize),
      need: q.need,
      days: (c === 'opened' ? of.item.openedLifeDays : of.item.sealedLifeDays) ?? 0,
      amount: { is: 'amount', amount: Math.round(q.lifeLimit ?? 0), unit },
    };
    return { key: `stock.conflict.${c}`, values };
  });
}
