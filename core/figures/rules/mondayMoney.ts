import type { MondayThing } from '#core/shared/views/monday.ts';
import type { MondayFacts } from './mondayFacts.ts';
import { byStake, day, money, say, sum, thing, who } from './mondayThing.ts';

const ONE = 1_000_000;

export function overdue({ overdue: all }: MondayFacts): MondayThing | null {
  return thing('overdue', '/money', {
    savedMinor: sum(all, (i) => i.owedMinor),
    said: say('overdue', { count: all.length }),
    cases: all
      .toSorted((a, b) => b.owedMinor - a.owedMinor)
      .map((i) => ({
        to: `/money/${i.invoiceId}`,
        said: say('overdue.case', {
          ...{ number: i.number, customer: i.customer, days: i.overdueDays },
          owed: money(i.owedMinor),
        }),
      })),
  });
}

export function toBill({ toBill: all }: MondayFacts): MondayThing | null {
  return thing('toBill', '/money', {
    savedMinor: sum(all, (j) => j.worthMinor),
    said: say('toBill', { count: all.length }),
    cases: byStake(all).map((j) => ({
      to: `/jobs/${j.jobId}`,
      said: say('toBill.case', { ...who(j), worth: money(j.worthMinor) }),
    })),
  });
}

export function quotesLapse({ quotes: all, accepted }: MondayFacts): MondayThing | null {
  const asked = sum(all, (q) => q.worthMinor);
  return thing('quotesLapse', '/money', {
    savedMinor: Math.round((asked * accepted.ppm) / ONE),
    said: say('quotesLapse', { count: all.length }),
    why: { asked: money(asked), share: { is: 'share', ppm: accepted.ppm }, of: accepted.of },
    cases: byStake(all).map((q) => ({
      to: `/jobs/${q.jobId}/quote`,
      said: say(q.lapsed ? 'quotesLapse.lapsed' : 'quotesLapse.case', {
        ...who(q),
        worth: money(q.worthMinor),
        day: day(q.validUntilDay),
      }),
    })),
  });
}
