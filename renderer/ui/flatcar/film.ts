import { type Point, pathBox } from '#core/shared/flatcar/path.ts';

/** A reading with its marked point in drawing units; µm. */
export type FilmPoint = { readonly x: number; readonly y: number; readonly um: number };
/** Where the film reaches a level: the region at or above it, and its edge. */
export type FilmStep = { readonly level: number; readonly region: string; readonly edge: string };
export type FilmField = {
  /** The highest level that the whole panel reaches, or null where it is below all of them. */
  readonly base: number | null;
  readonly steps: readonly FilmStep[];
};

/** Fewer readings than this say nothing about what lies between them. */
export const FIELD_FROM = 3;
const CELL = 9;
/** Softens the field at a reading, so that one point does not become a spike. */
const SOFT = 500;
type Corner = readonly [x: number, y: number, um: number];

/** Inverse-distance weighting (power 3, softened) of the readings at a point. */
export function filmAt(points: readonly FilmPoint[], x: number, y: number): number {
  let sum = 0;
  let weight = 0;
  for (const p of points) {
    const k = (1 / ((x - p.x) ** 2 + (y - p.y) ** 2 + SOFT)) ** 1.5;
    sum += k * p.um;
    weight += k;
  }
  return sum / weight;
}

/**
 * Bands of film inside a panel, by marching squares over the field. A picture of few readings, no measurement:
 * say "between readings" beside it. Null below three readings.
 * @source inverse distance weighting, D. Shepard (1968), from memory; marching squares, common practice
 */
export function filmField(
  d: string,
  points: readonly FilmPoint[],
  levels: readonly number[],
): FilmField | null {
  if (points.length < FIELD_FROM) return null;
  const [left, top, right, bottom] = pathBox(d);
  const columns = Math.ceil((right - left) / CELL) + 1;
  const rows = Math.ceil((bottom - top) / CELL) + 1;
  const grid: Corner[][] = Array.from({ length: rows + 1 }, (_, j) =>
    Array.from({ length: columns + 1 }, (_, i): Corner => {
      const [x, y] = [left + i * CELL, top + j * CELL];
      return [x, y, filmAt(points, x, y)];
    }),
  );
  const values = grid.flat().map((corner) => corner[2]);
  const low = Math.min(...values);
  const high = Math.max(...values);
  const reached = levels.filter((level) => level <= low);
  const steps = levels.filter((level) => level > low && level < high).map((level) => step(grid, level));
  return { base: reached.at(-1) ?? null, steps };
}

/** How far whole cells reach over their neighbours, so that no seam shows between them. */
const OVERLAP = 0.6;

function step(grid: readonly (readonly Corner[])[], level: number): FilmStep {
  const regions: string[] = [];
  const edges: string[] = [];
  for (let j = 0; j + 1 < grid.length; j += 1) {
    const upper = grid[j] ?? [];
    const lower = grid[j + 1] ?? [];
    let run: Corner | null = null;
    for (let i = 0; i + 1 < upper.length; i += 1) {
      const [a, b, c, e] = [upper[i], upper[i + 1], lower[i + 1], lower[i]];
      if (!a || !b || !c || !e) continue;
      if ([a, b, c, e].every((corner) => corner[2] >= level)) {
        run ??= a;
        if (i + 2 === upper.length) regions.push(box(run, c));
        continue;
      }
      if (run) regions.push(box(run, e));
      run = null;
      const { inside, cuts } = cell([a, b, c, e], level);
      if (inside.length > 2) regions.push(`M${inside.map(text).join('L')}z`);
      if (cuts.length === 2) edges.push(`M${cuts.map(text).join('L')}`);
    }
  }
  return { level, region: regions.join(''), edge: edges.join('') };
}

function box(a: Corner, c: Corner): string {
  const [left, top, right, bottom] = [a[0] - OVERLAP, a[1] - OVERLAP, c[0] + OVERLAP, c[1] + OVERLAP];
  return `M${text([left, top])}H${right.toFixed(1)}V${bottom.toFixed(1)}H${left.toFixed(1)}z`;
}

function text([x, y]: Point): string {
  return `${x.toFixed(1)} ${y.toFixed(1)}`;
}

/** The part of one cell at or above the level, and where the level crosses its sides. */
function cell(corners: readonly Corner[], level: number): { inside: Point[]; cuts: Point[] } {
  const inside: Point[] = [];
  const cuts: Point[] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length] ?? p;
    if (p[2] >= level) inside.push([p[0], p[1]]);
    if (p[2] >= level === q[2] >= level) return;
    const u = (level - p[2]) / (q[2] - p[2]);
    const cut: Point = [p[0] + u * (q[0] - p[0]), p[1] + u * (q[1] - p[1])];
    inside.push(cut);
    cuts.push(cut);
  });
  return { inside, cuts };
}
