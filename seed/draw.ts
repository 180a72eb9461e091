import { normal, type Random } from '../core/shared/random.ts';

/** Draws from a seeded random: the demo shop is the same for the same day. */
export type Draw = {
  readonly random: Random;
  pick<T>(list: readonly T[]): T;
  /** Picks by weight. */
  weighted<T>(list: readonly (readonly [T, number])[]): T;
  int(min: number, max: number): number;
  chance(share: number): boolean;
  /** Lognormal factor around 1 with the given sigma. */
  factor(sigma: number): number;
};

export function drawer(random: Random): Draw {
  const int = (min: number, max: number): number => min + Math.floor(random() * (max - min + 1));
  return {
    random,
    int,
    pick: (list) => list[int(0, list.length - 1)] as (typeof list)[number],
    weighted: (list) => {
      let at = random() * list.reduce((sum, [, weight]) => sum + weight, 0);
      for (const [value, weight] of list) {
        at -= weight;
        if (at < 0) return value;
      }
      return (list[list.length - 1] as (typeof list)[number])[0];
    },
    chance: (share) => random() < share,
    factor: (sigma) => Math.exp(normal(random) * sigma),
  };
}
