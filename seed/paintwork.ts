import { BODIES } from '../core/shared/bodies.ts';
import type { BodyStyle, Defect, PaintHardness, PanelId, Severity } from '../core/shared/vocabulary.ts';
import type { Draw } from './draw.ts';

/** How a car's paint is when it comes: decides findings, film and how hard the work really is. */
export type Paint = {
  readonly condition: 'good' | 'worn' | 'neglected';
  readonly hardness: PaintHardness;
  /** Middle of the whole stack, µm. */
  readonly filmUm: number;
  readonly refinished: PanelId | null;
  /** The stack of each wide panel as it is now, µm: the same at every visit but for what work took. */
  readonly stack: Map<PanelId, number>;
};

/** The panel on which a test spot is tried. */
export function spotPanel(paint: Paint): PanelId {
  return paint.refinished === 'bo' ? 'ro' : 'bo';
}

/** A gauge's text: a head, then one reading a row. */
export function gaugeText(measured: readonly Measured[]): string {
  return [
    'panel,reading,unit',
    ...measured.flatMap(({ panel, values }) => values.map((v) => `${panel},${v},um`)),
  ].join('\n');
}

/** What a correction took, and some panels read again after it: within what a gauge can tell. */
export function afterText(car: { readonly body: BodyStyle; readonly paint: Paint }, draw: Draw): string {
  const { stack, refinished } = car.paint;
  for (const [panel, um] of stack) if (um > LEFT_ALONE_UM) stack.set(panel, um - draw.int(0, 2));
  const panels = WIDE.filter((p) => panelsOf(car.body).includes(p) && p !== refinished).slice(0, 4);
  return gaugeText(panels.map((panel) => ({ panel, values: threeOn(car.paint, panel, draw) })));
}

/** Below this nobody polishes. */
const LEFT_ALONE_UM = 92;

function threeOn(paint: Paint, panel: PanelId, draw: Draw): readonly number[] {
  const middle = paint.stack.get(panel) ?? paint.filmUm;
  return [0, 1, 2].map(() => middle + draw.int(-4, 4));
}

export type Found = { readonly panel: PanelId; readonly defect: Defect; readonly severity: Severity };
export type Measured = { readonly panel: PanelId; readonly values: readonly number[] };

const WIDE: readonly PanelId[] = ['bo', 'ro', 'bl', 'lfw', 'rfw', 'lfd', 'rfd', 'lrd', 'rrd', 'lrq', 'rrq'];

export function panelsOf(body: BodyStyle): readonly PanelId[] {
  return Object.keys(BODIES[body].areasCm2) as PanelId[];
}

/** A refinished panel reads high; the others lie around the middle. */
function stackOf(filmUm: number, refinished: PanelId | null, draw: Draw): Map<PanelId, number> {
  return new Map(
    WIDE.map((panel) => [panel, panel === refinished ? draw.int(205, 260) : filmUm + draw.int(-14, 12)]),
  );
}

/** A car's paint. Neglected cars are seldom, hard paint takes longer than its estimate says. */
export function paintOf(draw: Draw): Paint {
  const filmUm = draw.int(98, 138);
  const refinished = draw.chance(0.18) ? draw.pick(['lrq', 'rrq', 'lfw', 'bo'] as const) : null;
  return {
    condition: draw.weighted([
      ['good', 25],
      ['worn', 50],
      ['neglected', 25],
    ] as const),
    hardness: draw.weighted([
      ['soft', 20],
      ['medium', 45],
      ['hard', 25],
      ['unknown', 10],
    ] as const),
    ...{ filmUm, refinished, stack: stackOf(filmUm, refinished, draw) },
  };
}

const SEVERITY = {
  good: [
    ['light', 80],
    ['moderate', 20],
  ],
  worn: [
    ['light', 35],
    ['moderate', 50],
    ['heavy', 15],
  ],
  neglected: [
    ['moderate', 45],
    ['heavy', 55],
  ],
} as const satisfies Record<Paint['condition'], readonly (readonly [Severity, number])[]>;

const EXTRA = [
  ['waterSpots', 3],
  ['deepScratches', 3],
  ['oxidation', 2],
  ['etching', 2],
  ['holograms', 2],
  ['stoneChips', 3],
  ['contamination', 3],
] as const satisfies readonly (readonly [Defect, number])[];

/** Swirls over the wide panels, and a few worse things here and there. */
export function findingsOf(body: BodyStyle, paint: Paint, draw: Draw): readonly Found[] {
  const wide = WIDE.filter((p) => panelsOf(body).includes(p));
  const swirls = wide.map(
    (panel): Found => ({ panel, defect: 'swirls', severity: draw.weighted(SEVERITY[paint.condition]) }),
  );
  const extras = Array.from(
    { length: draw.int(1, paint.condition === 'neglected' ? 5 : 3) },
    (): Found => ({
      panel: draw.pick(wide),
      defect: draw.weighted(EXTRA),
      severity: draw.weighted(SEVERITY[paint.condition]),
    }),
  );
  return [...swirls, ...extras];
}

/** The same defect, as bad, on several panels is written down once for all of them. */
export function alike(found: readonly Found[]) {
  const groups = Map.groupBy(found, (f) => `${f.defect} ${f.severity}`);
  return [...groups.values()].flatMap((same) => {
    const [first] = same;
    if (!first) return [];
    const { defect, severity } = first;
    return [{ defect, severity, panels: same.map((f) => f.panel) }];
  });
}

/** Three readings on some metal panels. */
export function readingsOf(body: BodyStyle, paint: Paint, draw: Draw): readonly Measured[] {
  const metal = WIDE.filter((p) => panelsOf(body).includes(p));
  const some = metal.filter((p) => p === 'bo' || p === paint.refinished || draw.chance(0.45));
  return some.map((panel) => ({ panel, values: threeOn(paint, panel, draw) }));
}
