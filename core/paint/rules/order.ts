import type { PanelId, StageKind } from '../../shared/vocabulary.ts';

/** A stage already done, on these panels (none named = the whole vehicle). */
export type DoneStage = { readonly kind: StageKind; readonly panels: readonly PanelId[] };

export type OrderFault = {
  readonly panel: PanelId;
  readonly stage: StageKind;
  /** What has to come first. */
  readonly before: StageKind;
};

/** What must be done on a panel before a stage may touch it. Grit left on the paint is ground in by the machine. */
const NEEDS: Partial<Record<StageKind, readonly StageKind[]>> = {
  cut: ['decontaminate', 'clay'],
  refine: ['decontaminate', 'clay'],
  panelWipe: ['wash'],
  protect: ['wash'],
};

/**
 * Panels on which a stage may not start yet. No machine stage before decontaminate and clay; where a panel's plan
 * has a cut, it comes before its refine; nothing is sealed unwashed. A test spot needs its panel clayed only.
 * Empty = the stage may start. A named override is the caller's to record.
 * @source common practice, no source
 */
export function orderFaults(
  kind: StageKind,
  panels: readonly PanelId[],
  done: readonly DoneStage[],
  planned: readonly DoneStage[],
  testSpot = false,
): OrderFault[] {
  const needs = testSpot ? (['clay'] as const) : (NEEDS[kind] ?? []);
  return panels.flatMap((panel) => {
    const wanted: StageKind[] = [...needs];
    if (kind === 'refine' && !testSpot && planned.some((p) => p.kind === 'cut' && covers(p, panel)))
      wanted.push('cut');
    return wanted
      .filter((before) => !done.some((d) => d.kind === before && covers(d, panel)))
      .map((before) => ({ panel, stage: kind, before }));
  });
}

/** Faults inside a plan itself: stages in the order given, each with what came before it. */
export function planFaults(stages: readonly DoneStage[]): OrderFault[] {
  return stages.flatMap((stage, i) => orderFaults(stage.kind, stage.panels, stages.slice(0, i), stages));
}

function covers(stage: DoneStage, panel: PanelId): boolean {
  return stage.panels.length === 0 || stage.panels.includes(panel);
}
