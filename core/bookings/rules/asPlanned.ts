import type { MaterialAmount, StagePlan } from '../../shared/stagePlan.ts';

/** A stage's figures as they are kept. */
type Kept = Readonly<Record<Exclude<keyof StagePlan, 'materials'>, unknown>>;

/** Whether a stage is kept with exactly the figures and materials of a plan. */
export function isAsPlanned(kept: Kept, uses: readonly MaterialAmount[], plan: StagePlan): boolean {
  const { materials, ...fields } = plan;
  const names = Object.keys(fields) as (keyof Kept)[];
  return names.every((name) => isSame(kept[name], fields[name])) && isSameUse(uses, summedAmounts(materials));
}

function isSame(a: unknown, b: unknown): boolean {
  return Array.isArray(a) ? JSON.stringify(a) === JSON.stringify(b) : a === b;
}

function isSameUse(a: readonly MaterialAmount[], b: readonly MaterialAmount[]): boolean {
  const of = new Map(a.map((m) => [m.material, m.amount]));
  return a.length === b.length && b.every((m) => of.get(m.material) === m.amount);
}

/** One amount for each material, in the order they are first named. */
export function summedAmounts(materials: readonly MaterialAmount[]): readonly MaterialAmount[] {
  const total = new Map<MaterialAmount['material'], number>();
  for (const { material, amount } of materials) total.set(material, (total.get(material) ?? 0) + amount);
  return [...total].map(([material, amount]) => ({ material, amount }));
}
