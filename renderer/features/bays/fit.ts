/** Text that is written whole or not at all: measured in the board's own face before it is drawn. */
const FACE = 'Hyperlegible, system-ui, sans-serif';
let pen: CanvasRenderingContext2D | null = null;
const known = new Map<string, number>();

export function textWidth(text: string, size = 13, strong = true): number {
  const key = `${size}/${strong}/${text}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  pen ??= document.createElement('canvas').getContext('2d');
  if (!pen) return text.length * size * 0.6;
  pen.font = `${strong ? 600 : 400} ${size}px ${FACE}`;
  const { width } = pen.measureText(text);
  // Measured before the face has loaded, a width is a guess and not worth keeping.
  if (document.fonts.check(pen.font)) known.set(key, width);
  return width;
}

export function lastName(name: string): string {
  return name.trim().split(/\s+/).at(-1) ?? name;
}

/** The last name where it has room, else the initials, else nothing. `room` in px. */
export function fitName(name: string, room: number, size = 13): string {
  const last = lastName(name);
  if (textWidth(last, size) <= room) return last;
  const initials = name
    .trim()
    .split(/\s+/)
    .map((w) => w.charAt(0))
    .join('');
  return textWidth(initials, size) <= room ? initials : '';
}

/** The text where it has room, else nothing. */
export function fitText(text: string, room: number, size = 13, strong = false): string {
  return textWidth(text, size, strong) <= room ? text : '';
}

/**
 * Until where each of some stretches can be read, when those that begin later are drawn over it; in the order given.
 * Of two that begin together the one given later lies on top.
 */
export function readableUntil(spans: readonly (readonly [from: number, to: number])[]): readonly number[] {
  return spans.map(([from, to], i) => {
    const above = spans.filter(([start], j) => j !== i && (start > from || (start === from && j > i)));
    return Math.max(from, Math.min(to, ...above.map(([start]) => start)));
  });
}

export type Hung = { readonly at: number; readonly long: string; readonly short: string };

/** Labels of flags that hang to the left of their poles and never cover each other: long, short, or none. */
export function hang(flags: readonly Hung[]): readonly string[] {
  const order = flags.map((f, i) => ({ ...f, i })).sort((a, b) => a.at - b.at);
  const labels = flags.map(() => '');
  let taken = 0;
  for (const flag of order) {
    const label = [flag.long, flag.short].find((l) => flag.at - (textWidth(l) + FLAG_PAD) >= taken);
    if (label !== undefined) labels[flag.i] = label;
    taken = flag.at + 2;
  }
  return labels;
}
/** Px that a flag adds to its words. */
const FLAG_PAD = 18;
