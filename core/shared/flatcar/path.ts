/** Path text of the flat car. 1 unit = 5 mm; x runs nose to tail, y = 0 is the centre line, the lower half is y > 0. */
export type Point = readonly [x: number, y: number];
/** A cubic from where the last one ended: two control points and its end. */
export type Cubic = readonly [number, number, number, number, number, number];

const COMMAND = /([MLCAZ])([^MLCAZ]*)/g;

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

/** Joins commands and numbers to path text, rounded to hundredths of a unit. */
export function path(...parts: readonly (string | number)[]): string {
  return parts.map((part) => (typeof part === 'number' ? String(round(part)) : part)).join(' ');
}

function commandsOf(d: string): readonly (readonly [name: string, numbers: readonly number[]])[] {
  return [...d.matchAll(COMMAND)].map(([, name = '', rest = '']) => [
    name,
    (rest.match(/-?\d*\.?\d+/g) ?? []).map(Number),
  ]);
}

/** Sends every point through `move`; arcs keep their radii. */
export function mapPath(d: string, move: (x: number, y: number) => Point): string {
  return commandsOf(d)
    .map(([name, n]) => {
      if (name === 'Z') return 'Z';
      if (name === 'A') return path('A', ...n.slice(0, 5), ...move(n[5] ?? 0, n[6] ?? 0));
      const out: number[] = [];
      for (let i = 0; i < n.length; i += 2) out.push(...move(n[i] ?? 0, n[i + 1] ?? 0));
      return path(name, ...out);
    })
    .join(' ');
}

/** The other hand: mirrored in the centre line, exact. An arc turns the other way. */
export function mirror(d: string): string {
  return commandsOf(d)
    .map(([name, n]) => {
      if (name === 'A') return path('A', ...n.slice(0, 4), n[4] ? 0 : 1, n[5] ?? 0, -(n[6] ?? 0));
      return path(name, ...n.map((v, i) => (i % 2 ? -v : v)));
    })
    .join(' ');
}

/** A panel on the centre line from its lower edge, front to rear, closed by the reversed mirror of it. */
export function symmetric(start: Point, lower: readonly Cubic[]): string {
  const parts: (string | number)[] = ['M', ...start];
  const ends: Point[] = [start];
  for (const cubic of lower) {
    parts.push('C', ...cubic);
    ends.push([cubic[4], cubic[5]]);
  }
  for (let i = lower.length - 1; i >= 0; i -= 1) {
    const cubic = lower[i];
    const end = ends[i];
    if (cubic && end) parts.push('C', cubic[2], -cubic[3], cubic[0], -cubic[1], end[0], -end[1]);
  }
  return path(...parts, 'Z');
}

/** A straight line as a cubic, so that it can stand in a symmetric edge. */
export function straight(a: Point, b: Point): Cubic {
  const dx = (b[0] - a[0]) / 3;
  const dy = (b[1] - a[1]) / 3;
  return [a[0] + dx, a[1] + dy, a[0] + 2 * dx, a[1] + 2 * dy, b[0], b[1]];
}

/** The path as a polygon, curves in 24 steps. */
export function polygon(d: string): readonly Point[] {
  const out: Point[] = [];
  let at: Point = [0, 0];
  for (const [name, n] of commandsOf(d)) {
    const added = name === 'C' ? cubicPoints(at, n) : name === 'A' ? arcPoints(at, n) : pairs(n);
    out.push(...added);
    at = added.at(-1) ?? at;
  }
  return out;
}

function pairs(n: readonly number[]): Point[] {
  const out: Point[] = [];
  for (let i = 0; i < n.length; i += 2) out.push([n[i] ?? 0, n[i + 1] ?? 0]);
  return out;
}

function cubicPoints(from: Point, n: readonly number[]): Point[] {
  const out: Point[] = [];
  let [x, y] = from;
  for (let i = 0; i < n.length; i += 6) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = n.slice(i, i + 6);
    for (let k = 1; k <= 24; k += 1) {
      const t = k / 24;
      const u = 1 - t;
      const [p, q, r, s] = [u ** 3, 3 * u * u * t, 3 * u * t * t, t ** 3];
      out.push([p * x + q * a + r * c + s * e, p * y + q * b + r * d + s * f]);
    }
    [x, y] = [e, f];
  }
  return out;
}

/** Circular arcs only, which is all the wheel arches need. */
function arcPoints(from: Point, n: readonly number[]): Point[] {
  const [r = 0, , , large = 0, sweep = 0, ex = 0, ey = 0] = n;
  const [x, y] = from;
  const chord = Math.hypot(ex - x, ey - y);
  const high = Math.sqrt(Math.max(0, r * r - (chord * chord) / 4)) * (large === sweep ? -1 : 1);
  const cx = (x + ex) / 2 - (high * (ey - y)) / chord;
  const cy = (y + ey) / 2 + (high * (ex - x)) / chord;
  const a0 = Math.atan2(y - cy, x - cx);
  let a1 = Math.atan2(ey - cy, ex - cx);
  if (sweep && a1 < a0) a1 += 2 * Math.PI;
  if (!sweep && a1 > a0) a1 -= 2 * Math.PI;
  return Array.from({ length: 24 }, (_, k) => {
    const a = a0 + ((a1 - a0) * (k + 1)) / 24;
    return [cx + r * Math.cos(a), cy + r * Math.sin(a)] as const;
  });
}

/** Enclosed area in square units. */
export function pathArea(d: string): number {
  const points = polygon(d);
  const twice = points.reduce((sum, [x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length] ?? [0, 0];
    return sum + x * ny - nx * y;
  }, 0);
  return Math.abs(twice) / 2;
}

/** `[left, top, right, bottom]` of a path. */
export function pathBox(d: string): readonly [number, number, number, number] {
  const points = polygon(d);
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
