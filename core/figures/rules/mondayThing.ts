import type { LocalDay, Minor } from '#core/shared/units.ts';
import type { MondayCase, MondaySentence, MondayThing } from '#core/shared/views/monday.ts';
import type { Stake } from './mondayFacts.ts';

const CASES = 3;

type Made = {
  readonly savedMinor: number;
  readonly promises?: number;
  readonly said: MondaySentence;
  readonly why?: MondaySentence['values'];
  readonly cases: readonly MondayCase[];
};

/** A thing of the page; null without a case. */
export function thing(kind: MondayThing['kind'], to: string, made: Made): MondayThing | null {
  if (made.cases.length === 0) return null;
  return {
    ...{ kind, to, said: made.said, promises: made.promises ?? 0 },
    savedMinor: made.savedMinor as Minor,
    why: say(`${kind}.why`, made.why ?? {}),
    cases: made.cases.slice(0, CASES),
    moreCases: Math.max(0, made.cases.length - CASES),
  };
}

export function say(key: string, values: MondaySentence['values']): MondaySentence {
  return { key, values };
}

export function who(s: Stake): { readonly number: number; readonly customer: string } {
  return { number: s.jobNumber, customer: s.customer };
}

export function money(minor: number): { readonly is: 'money'; readonly minor: Minor } {
  return { is: 'money', minor: Math.round(minor) as Minor };
}

export function day(of: LocalDay): { readonly is: 'day'; readonly day: LocalDay } {
  return { is: 'day', day: of };
}

export function byStake<T extends Stake>(all: readonly T[]): readonly T[] {
  return all.toSorted((a, b) => b.worthMinor - a.worthMinor || a.jobNumber - b.jobNumber);
}

/** Each job once: two things lacking for it stop it once. */
export function distinct<T extends Stake>(all: readonly T[]): readonly T[] {
  return [...new Map(all.map((s) => [s.jobId, s])).values()];
}

export function sum<T>(all: readonly T[], of: (item: T) => number): number {
  return all.reduce((total, item) => total + of(item), 0);
}
