import type { BayKind, Skill, StageKind } from '../../shared/vocabulary.ts';

/** Where a stage may be done, who may do it, and whether the night may come between. Common practice, no source. */
export const STAGE_SHAPE: Readonly<
  Record<
    StageKind,
    { readonly bays: readonly BayKind[]; readonly skill: Skill; readonly splittable: boolean }
  >
> = {
  inspection: shape(['wash', 'correction', 'protection'], 'inspection', false),
  wash: shape(['wash'], 'wash', false),
  decontaminate: shape(['wash'], 'wash', false),
  clay: shape(['wash', 'correction'], 'wash', true),
  mask: shape(['correction'], 'correction', true),
  sand: shape(['correction', 'wash'], 'correction', true),
  cut: shape(['correction'], 'correction', true),
  refine: shape(['correction'], 'correction', true),
  panelWipe: shape(['correction', 'protection'], 'correction', false),
  protect: shape(['protection', 'correction'], 'protection', false),
  cure: shape(['protection', 'correction'], 'protection', false),
  interior: shape(['wash', 'correction', 'protection'], 'interior', true),
  finalCheck: shape(['correction', 'protection', 'wash'], 'inspection', false),
  handover: shape(['correction', 'protection', 'wash'], 'inspection', false),
};

function shape(bays: readonly BayKind[], skill: Skill, splittable: boolean): (typeof STAGE_SHAPE)[StageKind] {
  return { bays, skill, splittable };
}

/** The kinds of place a stage may have in this shop; a shop without the usual kind uses what it has. */
export function placesFor(kind: StageKind, has: readonly BayKind[]): readonly BayKind[] {
  const usual = STAGE_SHAPE[kind].bays;
  const here = usual.filter((b) => has.includes(b));
  if (here.length > 0) return here;
  const indoors = has.filter((b) => b !== 'yard');
  return indoors.length > 0 ? indoors : usual;
}
