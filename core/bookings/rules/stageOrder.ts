import type { OverrideRule } from '../../shared/views/bookings.ts';
import {
  isMachineStage,
  MACHINE_STAGES,
  type PanelId,
  STAGE_KINDS,
  type StageKind,
  type StageState,
} from '../../shared/vocabulary.ts';

/** A stage as the order rule sees it; `panels` empty means the whole car. */
export type OrderedStage = {
  readonly kind: StageKind;
  readonly state: StageState;
  readonly panels: readonly PanelId[];
  readonly panelsDone: readonly PanelId[];
};
export type OrderBreach = { readonly rule: OverrideRule; readonly panels: readonly PanelId[] };

type Order = {
  readonly rule: OverrideRule;
  readonly first: readonly StageKind[];
  readonly before: readonly StageKind[];
};

/** What changes the car: all but looking at it and handing it over. */
const WORK = STAGE_KINDS.filter((kind) => !['inspection', 'finalCheck', 'handover'].includes(kind));
const BEFORE_MACHINE = [
  { rule: 'decontaminateBeforeMachine', first: 'decontaminate' },
  { rule: 'clayBeforeMachine', first: 'clay' },
] as const satisfies readonly { readonly rule: OverrideRule; readonly first: StageKind }[];

/**
 * What comes first wherever it is planned at all: loose grit is washed off before anything rubs over it, iron is
 * loosened before clay drags it along, each machine step takes out the marks of the one before, what is sealed in
 * under a protection stays as it is, oils under it keep it from holding, and the last look is at the finished car.
 *
 * @source common practice, no source
 */
const PLANNED_ORDER: readonly Order[] = [
  { rule: 'washBeforeTouch', first: ['wash'], before: ['clay', ...MACHINE_STAGES] },
  { rule: 'decontaminateBeforeClay', first: ['decontaminate'], before: ['clay'] },
  { rule: 'sandBeforeCut', first: ['sand'], before: ['cut', 'refine'] },
  { rule: 'cutBeforeRefine', first: ['cut'], before: ['refine'] },
  { rule: 'machineBeforeProtect', first: MACHINE_STAGES, before: ['protect'] },
  { rule: 'wipeBeforeProtect', first: ['panelWipe'], before: ['protect'] },
  { rule: 'workBeforeCheck', first: WORK, before: ['finalCheck'] },
];

/**
 * What a stage on these panels would break: a machine on a panel before it was decontaminated and clayed, planned or
 * not, since bonded grit under a pad scratches; and whatever is planned to come first and is not done there.
 * Each rule names the panels that are not ready. A stage about the whole car is asked with all panels of its body.
 *
 * @source common practice, no source
 */
export function orderBreaches(
  kind: StageKind,
  panels: readonly PanelId[],
  stages: readonly OrderedStage[],
): readonly OrderBreach[] {
  const must = isMachineStage(kind) ? BEFORE_MACHINE : [];
  return [
    ...must.map(({ rule, first }) => ({ rule, panels: panels.filter((p) => !isDoneOn(first, p, stages)) })),
    ...PLANNED_ORDER.filter((order) => order.before.includes(kind)).map((order) => ({
      rule: order.rule,
      panels: panels.filter((p) => order.first.some((first) => isOpenOn(first, p, stages))),
    })),
  ].filter((breach) => breach.panels.length > 0);
}

/** Whether anything has to come before a stage of this kind. */
export function hasOrder(kind: StageKind): boolean {
  return isMachineStage(kind) || PLANNED_ORDER.some((order) => order.before.includes(kind));
}

/** A test spot puts a machine on one panel: that panel has to be clayed, the rest of the car may wait. */
export function mayTestSpot(panel: PanelId, stages: readonly OrderedStage[]): boolean {
  return isDoneOn('clay', panel, stages);
}

/** Whether a stage of this kind is planned on a panel and not done there yet. */
function isOpenOn(kind: StageKind, panel: PanelId, stages: readonly OrderedStage[]): boolean {
  const planned = stages.some((s) => s.kind === kind && s.state !== 'dropped' && covers(s, panel));
  return planned && !isDoneOn(kind, panel, stages);
}

function isDoneOn(kind: StageKind, panel: PanelId, stages: readonly OrderedStage[]): boolean {
  return stages.some(
    (s) =>
      s.kind === kind &&
      s.state !== 'dropped' &&
      covers(s, panel) &&
      (s.state === 'done' || s.panelsDone.includes(panel)),
  );
}

function covers(stage: OrderedStage, panel: PanelId): boolean {
  return stage.panels.length === 0 || stage.panels.includes(panel);
}
