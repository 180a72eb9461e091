import type { Manner } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import type { EpochMs } from '#core/shared/units.ts';
import type { CardStage } from '#core/shared/views/card.ts';
import type { useText } from '../../bridge/texts.tsx';

/** Nobody works on a cure: it runs until its time is up. */
export function isCuring(s: CardStage): s is CardStage & { readonly startedMs: EpochMs } {
  return s.crew === 0 && s.state === 'inWork' && s.startedMs !== null;
}

/** When a coat will have had its time, or since when it has and the car waits for somebody to go on. */
export function cureSaid(
  s: CardStage & { readonly startedMs: EpochMs },
  nowMs: number,
  manner: Manner,
  t: ReturnType<typeof useText>,
): string {
  const overMs = s.startedMs + (s.p50Min + s.dwellMin) * 60_000;
  const said = when(manner, overMs, nowMs);
  return overMs <= nowMs ? t('card.cured', { when: said }) : t('card.curing', { when: said });
}
