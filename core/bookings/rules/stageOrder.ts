import type { OverrideRule } from '../../shared/views/bookings.ts';
import { isMachineStage, type PanelId, type StageKind, type StageState } from '../../shared/vocabulary.ts';

/** A stage as the order rule sees it; `panels` empty means the whole car. */
export type OrderedStage = {
  readonly kind: StageKind;
  readonly state: StageState;
  readonly panels: readonly PanelId[];
  readonly panelsDone: readonly PanelId[];
};
export type OrderBreach = { readonly rule: OverrideRule; readonly panels: readonly PanelId[] };

/**
 * What a stage on these panels would break: a machine on a panel before it was decontaminated and clayed, since
 * bonded grit under a pad scratches; cutting or refining before the wet sanding, and refining before the cut, that is
 * planned on that panel: each takes out the marks of the one before.
 * Stages that no machine touches break nothing. Each rule names the panels that are not ready.
 *
 * @source common practice, no source
 */
export function orderBreaches(
  kind: StageKind,
  panels: readonly PanelId[],
  stages: readonly OrderedStage[],
): readonly OrderBreach[] {
  if (!isMachineStage(kind)) return [];
  const found: OrderBreach[] = [];
  const add = (rule: OverrideRule, open: readonly PanelId[]): void => {
    if (open.length > 0) found.push({ rule, panels: open });
  };
  const lacking = (wanted: StageKind): readonly PanelId[] =>
    panels.filter((panel) => !isDoneOn(wanted, panel, stages));
  add('decontaminateBeforeMachine', lacking('decontaminate'));
  add('clayBeforeMachine', lacking('clay'));
  if (kind !== 'sand') add('sandBeforeCut', stillOpen('sand', panels, stages));
  if (kind === 'refine') add('cutBeforeRefine', stillOpen('cut', panels, stages));
  return found;
}

/** A test spot puts a machine on one panel: that panel has to be clayed, the rest of the car may wait. */
export function mayTestSpot(panel: PanelId, stages: readonly OrderedStage[]): boolean {
  return isDoneOn('clay', panel, stages);
}

/** Panels on which a stage of this kind is planned and not done yet. */
function stillOpen(
  kind: StageKind,
  panels: readonly PanelId[],
  stages: readonly OrderedStage[],
): readonly PanelId[] {
  const planned = stages.filter((s) => s.kind === kind && s.state !== 'dropped');
  return panels.filter((panel) => planned.some((s) => covers(s, panel)) && !isDoneOn(kind, panel, stages));
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
