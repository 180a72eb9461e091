import { currencyDigits } from '#core/shared/money.ts';
import { count, hours } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { WhatIfStart } from '#core/shared/views/whatIf.ts';
import type { WhatIfChange } from '#core/shared/whatIfChange.ts';
import type { Say } from '../../bridge/texts.tsx';

/** What was asked, in one line, so that an answer can be read, and printed, without its questions. */
export function askedOf(t: Say, manner: Manner, change: WhatIfChange, start: WhatIfStart): string {
  const more = (ppm: number): string => `${ppm > 0 ? '+' : ''}${count(manner, ppm / 10_000)}`;
  const parts: string[] = [];
  const { bay, technician, longerMin, pricePpm, asksPpm, mix, costWeekMinor } = change;
  if (bay) parts.push(t('whatIf.a.bay', { bay: t(`word.bay.${bay.bayKind}`), count: bay.count }));
  if (technician) {
    const name = start.people.find((p) => p.personId === technician.like)?.name ?? '';
    const said = { name, count: technician.count, hours: t(`whatIf.hours.${technician.hours}`) };
    parts.push(t('whatIf.a.person', said));
  }
  if (longerMin) parts.push(t('whatIf.a.longer', { hours: amountText(hours(manner, longerMin)) }));
  if (pricePpm) parts.push(t('whatIf.a.price', { percent: more(pricePpm) }));
  if (asksPpm) parts.push(t('whatIf.a.asks', { percent: more(asksPpm) }));
  if (mix) {
    const kind = t(`jobs.purpose.${mix.purpose}`);
    parts.push(t('whatIf.a.mix', { kind, percent: count(manner, mix.sharePpm / 10_000) }));
  }
  if (costWeekMinor) {
    const money = count(manner, costWeekMinor / 10 ** currencyDigits(manner.currency));
    parts.push(t('whatIf.a.cost', { money: `${manner.currency} ${money}` }));
  }
  return parts.join(' · ');
}
