import type { ShopSettings } from '../shared/settings.ts';
import { addLocalDays, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { SupplierView } from '../shared/views/stock.ts';
import { DEFAULT_LEAD_SPREAD, type SuggestAnswer, suggest } from '../stock/rules/suggest.ts';
import { arrivalDay, nextOpen, orderByDay, type SupplierDays } from '../stock/rules/supplierDays.ts';
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
  /** The last day to order for nothing to be short, and stock to stay above what is kept back; null = none is in sight. */
  readonly orderBy: LocalDay | null;
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
  const { lacksFrom } = answer;
  const orderBy = lacksFrom === null ? null : orderByDay(today, addLocalDays(today, lacksFrom), s);
  return { answer, supplier, link, arrivesDay, nextDay, arrivesNextDay, orderBy };
}
