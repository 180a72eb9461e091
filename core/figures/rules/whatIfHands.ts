import { SKILLS, type Skill } from '#core/shared/vocabulary.ts';
import type { SimPerson, SimShop, SimStage } from './whatIfShop.ts';

/** Who is at a car, until when at most without a break, and at what pace together. */
export type Hands = { readonly people: readonly number[]; readonly untilMin: number; readonly pace: number };

/** The people of a run: who is busy, and when each has to put the tools down next. Time only goes forward. */
export type Crew = {
  readonly pick: (stage: SimStage, nowMin: number, leftMin: number) => Hands | null;
  /** Somebody with the skill is there and has nothing else to do. */
  readonly anyFree: (skill: Skill, nowMin: number) => boolean;
  readonly take: (people: readonly number[]) => void;
  readonly free: (people: readonly number[]) => void;
};

/**
 * Whoever has the skill, is there and has nothing else to do; of several those with the fewest other skills. A stage
 * that is not to be cut in two begins only where it fits before the break, unless nobody's day is that long.
 */
export function crewOf(people: readonly SimPerson[]): Crew {
  const busy = people.map(() => false);
  const at = people.map(() => 0);
  const longest = people.map((p) => longestSpan(p));
  const order = people.map((_, i) => i).sort((a, b) => skillsOf(people, a) - skillsOf(people, b) || a - b);
  const until = (i: number, now: number): number => {
    const hours = people[i]?.hours;
    if (!hours) return 0;
    while ((hours.ends[at[i] ?? 0] ?? Number.POSITIVE_INFINITY) <= now) at[i] = (at[i] ?? 0) + 1;
    const k = at[i] ?? 0;
    return (hours.starts[k] ?? Number.POSITIVE_INFINITY) <= now ? (hours.ends[k] ?? 0) : 0;
  };
  const fits = (i: number, stage: SimStage, now: number, leftMin: number): boolean => {
    const needMin = leftMin / (people[i]?.pace ?? 1);
    return stage.splittable || until(i, now) - now >= needMin || (longest[i] ?? 0) < needMin;
  };
  const able = new Map(
    SKILLS.map((skill) => [skill, order.filter((i) => people[i]?.skills.includes(skill))]),
  );
  const isFree = (i: number, now: number): boolean => !busy[i] && until(i, now) > now;
  return {
    anyFree: (skill, now) => (able.get(skill) ?? []).some((i) => isFree(i, now)),
    pick: (stage, now, leftMin) => {
      const wanted = Math.max(1, stage.crew);
      const found: number[] = [];
      for (const i of able.get(stage.skill) ?? []) {
        if (!isFree(i, now) || !fits(i, stage, now, leftMin)) continue;
        found.push(i);
        if (found.length === wanted) return handsOf(people, found, (k) => until(k, now));
      }
      return null;
    },
    take: (who) => {
      for (const i of who) busy[i] = true;
    },
    free: (who) => {
      for (const i of who) busy[i] = false;
    },
  };
}

/** Moments at which somebody or something comes free without a car having changed. */
export function wakesOf(shop: SimShop): readonly number[] {
  const starts = [shop.desk, ...shop.people.map((p) => p.hours)].flatMap((c) => c.starts);
  const opened = shop.places.flatMap((p) => p.shut.map((s) => s.endMin));
  return [...new Set([...starts, ...opened])].sort((a, b) => a - b);
}

function handsOf(
  people: readonly SimPerson[],
  who: readonly number[],
  untilMin: (person: number) => number,
): Hands {
  const pace = who.reduce((sum, i) => sum + (people[i]?.pace ?? 1), 0) / who.length;
  return { people: who, untilMin: Math.min(...who.map(untilMin)), pace };
}

function longestSpan(person: SimPerson): number {
  const { starts, ends } = person.hours;
  return starts.reduce((most, start, i) => Math.max(most, (ends[i] ?? start) - start), 0);
}

function skillsOf(people: readonly SimPerson[], i: number): number {
  return people[i]?.skills.length ?? 0;
}
