import type { StagePlan } from '../../shared/stagePlan.ts';
import type { PanelId, StageKind, StageState } from '../../shared/vocabulary.ts';

export type PresentStage<Id extends string> = {
  readonly id: Id;
  readonly kind: StageKind;
  readonly state: StageState;
  /** Somebody worked on it, or it ran by itself. */
  readonly begun: boolean;
  /** Panels ticked off within it. */
  readonly panelsDone: readonly PanelId[];
};
export type MergedStage<Id extends string> =
  | { readonly do: 'keep'; readonly id: Id }
  | { readonly do: 'refigure'; readonly id: Id; readonly plan: StagePlan }
  | { readonly do: 'replan'; readonly id: Id; readonly plan: StagePlan }
  | { readonly do: 'add'; readonly plan: StagePlan }
  | { readonly do: 'drop'; readonly id: Id };

/**
 * Lays a new plan of the whole job over the stages that are there, in the new order of work:
 * what was begun takes the place of the plan's stage of its kind. A stage that is done keeps the figures it was
 * promised with; one still in work takes the new ones (`refigure`), since what is left of it rests on them, and keeps
 * its time and the panels ticked off. A stage that nobody has begun keeps its record (and with it its place on the
 * board) when its kind is still planned; the rest is dropped.
 */
export function mergeStages<Id extends string>(
  present: readonly PresentStage<Id>[],
  plans: readonly StagePlan[],
): readonly MergedStage<Id>[] {
  const spare = [...present.filter((s) => !s.begun)].sort(plannedFirst);
  const left = [...plans];
  const merged: MergedStage<Id>[] = present.filter((s) => s.begun).map((s) => begunStage(s, left));
  for (const plan of left) {
    const known = takeFirst(spare, (s) => s.kind === plan.kind);
    merged.push(known ? { do: 'replan', id: known.id, plan } : { do: 'add', plan });
  }
  for (const stage of spare) merged.push({ do: 'drop', id: stage.id });
  return merged;
}

function begunStage<Id extends string>(stage: PresentStage<Id>, left: StagePlan[]): MergedStage<Id> {
  const { id, kind, state, panelsDone } = stage;
  const plan = takeFirst(left, (p) => state !== 'dropped' && p.kind === kind);
  if (!plan || state === 'done') return { do: 'keep', id };
  // No panel named is the whole car: nothing to add to.
  const panels = plan.panels.length === 0 ? [] : [...new Set([...plan.panels, ...panelsDone])];
  return { do: 'refigure', id, plan: { ...plan, panels } };
}

function plannedFirst(a: { readonly state: StageState }, b: { readonly state: StageState }): number {
  return Number(a.state === 'dropped') - Number(b.state === 'dropped');
}

function takeFirst<T>(list: T[], fits: (item: T) => boolean): T | undefined {
  const at = list.findIndex(fits);
  return at < 0 ? undefined : list.splice(at, 1)[0];
}
