import type { WeeklyHours } from '#core/shared/examples.ts';
import { hours } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { BayKind } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';
import { weekMinutes } from './week.ts';

/** `1 wash, 2 correction, 1 protection, yard for 3`. */
export function baysSentence(
  bays: readonly { readonly kind: BayKind; readonly capacity: number }[],
  t: Say,
): string {
  const count = (kind: BayKind): number => bays.filter((bay) => bay.kind === kind).length;
  const yard = bays.reduce((cars, bay) => cars + (bay.kind === 'yard' ? bay.capacity : 0), 0);
  return t('shop.bay.say', {
    ...{ wash: count('wash'), correction: count('correction'), protection: count('protection') },
    yard,
  });
}

/** `open 5 days, 45 h a week`. */
export function hoursSentence(week: readonly WeeklyHours[], manner: Manner, t: Say): string {
  const days = new Set(week.map((w) => w.weekday)).size;
  return t('shop.hours.say', { days, hours: amountText(hours(manner, weekMinutes(week))) });
}
