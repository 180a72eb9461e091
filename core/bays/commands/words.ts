import { type Locale, say } from '../../shared/text/say.ts';
import type { PlanFault } from '../../shared/views/bays.ts';

/** A broken rule as a sentence, in the shop's words. */
export function faultSentence(fault: PlanFault, zone: string, locale: Locale = 'en'): string {
  const clock = (min: unknown): string =>
    new Intl.DateTimeFormat(locale, {
      weekday: 'short',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
      timeZone: zone,
    }).format(Number(min) * 60_000);
  const { untilMin, atMin, stage, ...words } = fault.words;
  return say(locale, `bays.rule.${fault.rule}`, {
    who: '',
    bay: '',
    person: '',
    other: '',
    ...words,
    stage: stage ? say(locale, `word.stage.${stage}` as 'word.stage.cut') : '',
    until: untilMin === undefined ? '' : clock(untilMin),
    at: atMin === undefined ? '' : clock(atMin),
  });
}
