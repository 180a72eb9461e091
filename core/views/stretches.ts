/** A stretch of somebody's work on a stage. */
type Stretch<P extends string> = { readonly stageId: string; readonly personId: P; readonly ms: number };

/** Stretches of one stage stand together already. */
export function byStage<S extends Stretch<string>>(rows: readonly S[]): readonly (readonly S[])[] {
  const stages: S[][] = [];
  for (const row of rows) {
    const last = stages.at(-1);
    if (last?.[0]?.stageId === row.stageId) last.push(row);
    else stages.push([row]);
  }
  return stages;
}

/** Who worked longest; of equals the one whose id comes first. Undefined where nobody did. */
export function busiest<P extends string>(stretches: readonly Stretch<P>[]): P | undefined {
  const [first] = stretches;
  if (!first || stretches.length === 1) return first?.personId;
  const spent = new Map<P, number>();
  for (const { personId, ms } of stretches) spent.set(personId, (spent.get(personId) ?? 0) + ms);
  let best = first.personId;
  for (const [personId, ms] of spent) {
    const longest = spent.get(best) ?? 0;
    if (ms > longest || (ms === longest && personId < best)) best = personId;
  }
  return best;
}
