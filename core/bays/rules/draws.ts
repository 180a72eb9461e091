import { normal, type Random } from '#core/shared/random.ts';
import type { Node } from './network.ts';

/** Minutes of a piece at normal pace; of one whose stage runs, what is left, given how long it has taken already. */
export function minutesOf(node: Node | undefined, shared: number, own: number, random: Random): number {
  if (!node || node.empty) return 0;
  const middle = node.mu + node.shared * shared;
  let total = Math.exp(middle + node.own * own);
  if (node.workedMin <= 0) return total * node.share;
  for (let tries = 0; tries < 12; tries += 1) {
    if (total > node.workedMin) return (total - node.workedMin) * node.share;
    total = Math.exp(middle + node.own * normal(random));
  }
  return Math.max(5, node.workedMin * 0.1) * node.share;
}

/** Standard normal draws in pairs (Box–Muller, both of the pair). */
export function fillNormals(out: Float64Array, random: Random): void {
  for (let i = 0; i < out.length; i += 2) {
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    const angle = 2 * Math.PI * random();
    out[i] = radius * Math.cos(angle);
    if (i + 1 < out.length) out[i + 1] = radius * Math.sin(angle);
  }
}
