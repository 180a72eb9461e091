import type { StagePlan } from '../../shared/stagePlan.ts';
import type { StageKind, StageState } from '../../shared/vocabulary.ts';

export type PresentStage<Id extends string> = {
  readonly id: Id;
  readonly kind: StageKind;
  readonly state: StageState;
  /** Somebody worked on it, or it ran by itself. */
  readonly begun: boolean;
};
export type MergedStage<Id extends string> =
  | { readonly do: 'keep'; readonly id: Id }
  | { readonly do: 'replan'; readonly id: Id; readonly plan: StagePlan }
  | { readonly do: 'add'; readonly plan: StagePlan }
  | { readonly do: 'drop'; readonly id: Id };

/**
 * Lays a new plan of the whole job over the stages that are there, in the new order of work:
 * what was begun stays as it is and takes the place of the plan's stage of its kind; a stage that nobody has begun
 * keeps its record (and with it its place on the board) when its kind is still planned; the rest is dropped.
 */
export function mergeStages<Id extends string>(
  present: readonly PresentStage<Id>[],
  plans: readonly StagePlan[],
): readonly MergedStage<Id>[] {
  const begun = present.filter((s) => s.begun);
  const spare = [...present.filter((s) => !s.begun)].sort(plannedFirst);
  const left = [...plans];
  for (const stage of begun) takeFirst(left, (plan) => stage.state !== 'dropped' && plan.kind === stage.kind);
  const merged: MergedStage<Id>[] = begun.map((s) => ({ do: 'keep', id: s.id }));
  for (const plan of left) {
    const known = takeFirst(spare, (s) => s.kind === plan.kind);
    merged.push(known ? { do: 'replan', id: known.id, plan } : { do: 'add', plan });
  }
  for (const stage of spare) merged.push({ do: 'drop', id: stage.id });
  return merged;
}

function plannedFirst(a: { readonly state: StageState }, b: { readonly state: StageState }): number {
  return Number(a.state === 'dropped') - Number(b.state === 'dropped');
}

function takeFirst<T>(list: T[], fits: (item: T) => boolean): T | undefined {
  const at = list.findIndex(fits);
  return at < 0 ? undefined : list.splice(at, 1)[0];
}
