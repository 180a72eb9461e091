import type { JobId } from '#core/shared/ids.ts';
import { normal, type Random, seeded } from '#core/shared/random.ts';
import { normalQuantile } from '#core/shared/statistics.ts';
import type { Line, Node } from './network.ts';

/**
 * Minutes of a car's pieces at normal pace in each of `runs` runs, those of one run side by side. What is drawn hangs on the
 * seed, the job's number and the place of the piece in its plan alone: whatever else is on the board, a car has the same luck.
 */
export function minutesOf(line: Line, seed: number, runs: number): Float64Array {
  const even = evenNormals(runs);
  const shared = shuffled(even, seeded(seedOf(`${line.number}`, seed)));
  const pieces = line.nodes.length;
  const minutes = new Float64Array(runs * pieces);
  line.nodes.forEach((node, at) => {
    const random = seeded(seedOf(`${line.number}/${node.order}`, seed));
    const own = shuffled(even, random);
    for (let i = 0; i < runs; i += 1)
      minutes[i * pieces + at] = pieceOf(node, shared[i] ?? 0, own[i] ?? 0, random);
  });
  return minutes;
}

/** Minutes of a line's pieces in all runs. */
export type Draws = (line: Line) => Float64Array;

/** Draws each car once, however many simulations it is in: a plan that is not changed between them is drawn the same. */
export function drawnOnce(seed: number, runs: number): Draws {
  const known = new Map<JobId, Float64Array>();
  return (line) => {
    const drawn = known.get(line.jobId) ?? minutesOf(line, seed, runs);
    known.set(line.jobId, drawn);
    return drawn;
  };
}

/** Minutes of one piece; of one whose stage runs, what is left, given how long it has taken already. */
function pieceOf(node: Node, shared: number, own: number, random: Random): number {
  if (node.empty) return 0;
  const middle = node.mu + node.shared * shared;
  let total = Math.exp(middle + node.own * own);
  if (node.workedMin <= 0) return total * node.share;
  for (let tries = 0; tries < 12; tries += 1) {
    if (total > node.workedMin) return (total - node.workedMin) * node.share;
    total = Math.exp(middle + node.own * normal(random));
  }
  return Math.max(5, node.workedMin * 0.1) * node.share;
}

const known = new Map<number, Float64Array>();

/**
 * Standard normal values, one from the middle of each of `count` equally likely intervals. Every piece takes each of
 * them once, in an order of its own: Latin hypercube sampling, never less true than plain draws, and sooner drawn.
 * @source McKay, Beckman & Conover 1979, Technometrics 21:239–245; title from memory
 */
function evenNormals(count: number): Float64Array {
  const values =
    known.get(count) ?? Float64Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  known.set(count, values);
  return values;
}

/** The same values in a random order (Fisher and Yates). */
function shuffled(values: Float64Array, random: Random): Float64Array {
  const out = values.slice();
  for (let i = out.length - 1; i > 0; i -= 1) {
    const j = Math.floor(random() * (i + 1));
    const kept = out[i] ?? 0;
    out[i] = out[j] ?? 0;
    out[j] = kept;
  }
  return out;
}

/**
 * Spreads a name over all seeds.
 * @source Fowler, Noll & Vo, the FNV-1a hash with 32 bits (public domain), recalled from memory
 */
function seedOf(name: string, seed: number): number {
  let hash = 0x811c9dc5 ^ seed;
  for (let i = 0; i < name.length; i += 1) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
