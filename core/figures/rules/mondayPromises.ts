import type { MondayThing } from '#core/shared/views/monday.ts';
import type { MondayFacts } from './mondayFacts.ts';
import { day, distinct, money, say, sum, thing, who } from './mondayThing.ts';

const ONE = 1_000_000;

/** What a way out adds to the chance, in money; where none was found, what agreeing on another time with the customer saves. */
export function promiseSaved(p: MondayFacts['promises'][number]): number {
  return Math.round((p.worthMinor * Math.max(0, (p.bestPpm ?? ONE) - p.nowPpm)) / ONE);
}

function sentenceOf({ stands, remedy }: MondayFacts['promises'][number]): string {
  if (stands === 'noWork') return 'promises.noWork';
  if (stands === 'passed') return remedy === 'later' ? 'promises.passedLater' : 'promises.passed';
  return remedy ? `promises.${remedy}` : 'promises.call';
}

export function promises({ promises: all }: MondayFacts): MondayThing | null {
  const ranked = all.toSorted((a, b) => promiseSaved(b) - promiseSaved(a));
  return thing('promises', '/desk', {
    savedMinor: sum(all, promiseSaved),
    promises: all.length,
    said: say('promises', { count: all.length }),
    cases: ranked.map((p) => ({
      to: `/jobs/${p.jobId}`,
      said: say(sentenceOf(p), {
        ...who(p),
        at: { is: 'dayTime', atMin: p.pickUpMin },
        now: { is: 'share', ppm: p.nowPpm },
        best: { is: 'share', ppm: p.bestPpm ?? p.nowPpm },
        worth: money(p.worthMinor),
      }),
    })),
  });
}

export function padsToWash({ padsToWash: all }: MondayFacts): MondayThing | null {
  const stopped = distinct(all);
  return thing('padsToWash', '/stock', {
    savedMinor: sum(stopped, (s) => s.worthMinor),
    promises: stopped.length,
    said: say('padsToWash', { count: all.length }),
    cases: all.map((p) => ({
      to: '/stock',
      said: say('padsToWash.case', { item: p.itemName, lacking: p.lacking, ...who(p), day: day(p.day) }),
    })),
  });
}

export function stockStops({ stockStops: all }: MondayFacts): MondayThing | null {
  const stopped = distinct(all.flatMap((s) => s.stopped));
  const worth = (s: (typeof all)[number]): number => sum(s.stopped, (x) => x.worthMinor);
  return thing('stockStops', '/stock', {
    savedMinor: sum(stopped, (s) => s.worthMinor),
    promises: stopped.length,
    said: say('stockStops', { items: all.length, jobs: stopped.length }),
    cases: all
      .toSorted((a, b) => worth(b) - worth(a) || (a.day < b.day ? -1 : 1))
      .map((s) => ({
        to: `/stock/items/${s.itemId}`,
        said: say('stockStops.case', {
          ...{ item: s.itemName, packs: s.packs, supplier: s.supplier },
          ...{ day: day(s.day), jobs: s.stopped.length, worth: money(worth(s)) },
        }),
      })),
  });
}
