/**
 * A small seeded generator (mulberry32) for simulations, tests and the demo shop: same seed, same numbers.
 * Not for secrets.
 * @source T. Ettinger's mulberry32 (public domain), recalled from memory; its first outputs are pinned by a test
 */
export type Random = () => number;

export function seeded(seed: number): Random {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A standard normal draw (Box–Muller, one of the pair). */
export function normal(random: Random): number {
  const u = 1 - random();
  return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random());
}
