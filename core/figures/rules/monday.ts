import { MONDAY_KINDS, type MondayThing, type MondayView } from '#core/shared/views/monday.ts';
import type { MondayFacts } from './mondayFacts.ts';
import { drift, idleBays } from './mondayHours.ts';
import { overdue, quotesLapse, toBill } from './mondayMoney.ts';
import { padsToWash, promises, stockStops } from './mondayPromises.ts';

const THINGS = 5;

/**
 * The five things of the week that save or bring most: each with its number, how it came about, and its cases. Things of
 * one kind are one thing. What saves neither money nor a promise, as far as is known, is only named further down.
 */
export function mondayOf(facts: MondayFacts): MondayView {
  const found = CANDIDATES.flatMap((make) => make(facts) ?? []).toSorted(byWorth);
  const things = found.filter((thing) => thing.savedMinor > 0 || thing.promises > 0).slice(0, THINGS);
  const rest = found.filter((thing) => !things.includes(thing));
  return {
    today: facts.today,
    currency: facts.currency,
    things,
    others: rest.map(({ kind, savedMinor }) => ({ kind, savedMinor })),
    clear: MONDAY_KINDS.filter((kind) => !found.some((thing) => thing.kind === kind)),
  };
}

function byWorth(a: MondayThing, b: MondayThing): number {
  return (
    b.savedMinor - a.savedMinor ||
    b.promises - a.promises ||
    MONDAY_KINDS.indexOf(a.kind) - MONDAY_KINDS.indexOf(b.kind)
  );
}

type Make = (facts: MondayFacts) => MondayThing | null;
const CANDIDATES: readonly Make[] = [
  promises,
  padsToWash,
  stockStops,
  overdue,
  toBill,
  quotesLapse,
  idleBays,
  drift,
];
