import type { ShopSettings } from '../shared/settings.ts';
import { addLocalDays, localDaysBetween } from '../shared/time.ts';
import type { LocalDay, Minor } from '../shared/units.ts';
import type {
  ReasonInput,
  ReasonView,
  Sentence,
  SentenceValue,
  SuggestionView,
  SupplierView,
} from '../shared/views/stock.ts';
import { COVER_DAYS, DEFAULT_LEAD_SPREAD, type SuggestAnswer, suggest } from '../stock/rules/suggest.ts';
import { arrivalDay, isOpen, nextOpen, type SupplierDays } from '../stock/rules/supplierDays.ts';
import type { Forward, Outlook } from './stockOutlook.ts';
import type { Link } from './stockSuppliers.ts';

/** An item's answer for its supplier, kept with what the sentence needs. */
export type Judged = {
  readonly answer: SuggestAnswer;
  readonly supplier: SupplierView;
  readonly link: Link;
  readonly arrivesDay: LocalDay;
  readonly nextDay: LocalDay;
  readonly arrivesNextDay: LocalDay;
};

/** Working days as learned where there is something to learn from. */
function daysOf(s: SupplierView): SupplierDays & { readonly sd: number } {
  const leadDays = s.learnedLead ? Math.round(s.learnedLead.meanDays) : s.leadDays;
  const week = Math.max(1, s.openWeekdays.length);
  const sd = s.learnedLead ? s.learnedLead.sdDays : DEFAULT_LEAD_SPREAD * s.leadDays;
  return { ...s, leadDays, sd: (sd * 7) / week };
}

/** Asks whether the item is to be ordered today from this supplier. */
export function judge(
  of: Outlook,
  forward: Pick<Forward, 'today'>,
  supplier: SupplierView,
  link: Link,
  rules: ShopSettings['stock'],
): Judged {
  const s = daysOf(supplier);
  const { today } = forward;
  const arrivesDay = arrivalDay(today, s);
  const nextDay = nextOpen(addLocalDays(nextOpen(today, s), 1), s);
  const arrivesNextDay = arrivalDay(nextDay, s);
  const answer = suggest({
    ...of,
    ...link,
    onHand: of.item.onHand,
    mid: of.projected.mid,
    openToday: isOpen(today, s),
    arrivesToday: localDaysBetween(today, arrivesDay),
    arrivesNext: localDaysBetween(today, arrivesNextDay),
    sdLeadDays: s.sd,
    level: rules.serviceLevelPpm / 1_000_000,
    orderCostMinor: rules.orderCostMinor,
    holdingShare: rules.holdingPpm / 1_000_000,
    sealedLifeDays: of.item.sealedLifeDays,
    openedLifeDays: of.item.openedLifeDays,
    shelfPacks:
      of.item.shelfPacks === null
        ? null
        : Math.floor((of.item.shelfPacks * of.item.packSize) / link.packSize),
  });
  return { answer, supplier, link, arrivesDay, nextDay, arrivesNextDay };
}

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
    left: amount(Math.max(0, item.onHand)),
    booked: amount(sumOf(of.booked)),
    byDay: day(addLocalDays(today, Math.max(0, lastBooked))),
    runOutDay: day(addLocalDays(today, runOut ?? 0)),
    belowDay: day(addLocalDays(today, answer.below ?? 0)),
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
  if (of.item.onHand <= 0 && !someBooked) return 'empty';
  const wait = localDaysBetween(today, j.nextDay);
  const below = j.answer.below ?? 0;
  if (wait > 4 && below > localDaysBetween(today, j.arrivesDay)) return 'shut';
  if (!someBooked) return 'usual';
  return of.projected.runOut !== null ? 'booked' : 'low';
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

/** Inputs, rule and source behind a suggestion, or behind its absence. */
export function reasonOf(of: Outlook, j: Judged): ReasonView {
  const { answer, link } = j;
  const amount = (key: string, value: number): ReasonInput => ({
    key: `stock.in.${key}`,
    value: { is: 'amount', amount: Math.round(value), unit: of.item.unit },
  });
  const plain = (key: string, value: SentenceValue): ReasonInput => ({ key: `stock.in.${key}`, value });
  const q = answer.quantity;
  const inputs = [
    amount('onHand', of.item.onHand),
    amount('onOrder', answer.onOrder),
    amount('reserved', answer.reserved),
    amount('position', answer.position),
    amount('perDay', answer.perDay),
    plain('history', of.usualUse.days),
    plain('openDays', of.usualUse.openDays),
    plain('usedDays', of.usualUse.usedDays),
    amount('usualByThen', answer.usualByThen),
    plain('arrives', { is: 'day', day: j.arrivesDay }),
    plain('arrivesNext', { is: 'day', day: j.arrivesNextDay }),
    amount('safety', answer.safety),
    amount('reorderPoint', answer.reorderPoint),
    amount('shortfall', answer.shortfall),
    ...(q.economic === null ? [] : [amount('economic', q.economic)]),
    ...(q.shelfLimit === null ? [] : [amount('shelf', q.shelfLimit)]),
    ...(q.lifeLimit === null ? [] : [amount('life', q.lifeLimit)]),
    plain('price', { is: 'money', minor: q.priceMinor as Minor }),
    plain('packs', { is: 'packs', packs: q.packs, packSize: link.packSize, unit: of.item.unit }),
  ];
  const rule = answer.rare ? 'rare' : 'reorder';
  return {
    inputs: answer.order ? inputs : inputs.slice(0, 13),
    rule: answer.order ? `stock.rule.${rule}` : 'stock.rule.enough',
    source: `stock.source.${rule}`,
  };
}
