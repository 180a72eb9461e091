/** A stretch of time, half-open, in any one unit (the board uses minutes since the epoch). */
export type Stretch = { readonly from: number; readonly to: number };

/** Time from left to right: open hours in full width, closed ones pressed together. */
export type TimeScale = {
  readonly from: number;
  readonly to: number;
  /** 0 (left edge) to 1 (right edge); outside the stretch it is clamped. */
  readonly at: (time: number) => number;
  /** The time at a share of the width. */
  readonly back: (share: number) => number;
  readonly pieces: readonly Piece[];
};
export type Piece = Stretch & { readonly open: boolean; readonly left: number; readonly right: number };

/**
 * Makes the one scale that rails, boards and bands share. Each closed stretch takes the width of `closedAs` time,
 * or its own where it is shorter. `open` must rise and not overlap.
 */
export function timeScale(
  spec: Stretch & {
    readonly open: readonly Stretch[];
    readonly closedAs: number;
  },
): TimeScale {
  const parts: { stretch: Stretch; open: boolean; width: number }[] = [];
  let at = spec.from;
  const add = (to: number, open: boolean): void => {
    if (to <= at) return;
    parts.push({ stretch: { from: at, to }, open, width: open ? to - at : Math.min(to - at, spec.closedAs) });
    at = to;
  };
  for (const stretch of spec.open) {
    add(Math.min(stretch.from, spec.to), false);
    add(Math.min(stretch.to, spec.to), true);
  }
  add(spec.to, false);
  const whole = parts.reduce((sum, part) => sum + part.width, 0) || 1;
  let left = 0;
  const pieces = parts.map(({ stretch, open, width }): Piece => {
    const piece = { ...stretch, open, left, right: left + width / whole };
    left = piece.right;
    return piece;
  });
  return {
    from: spec.from,
    to: spec.to,
    pieces,
    at: (t) => shareAt(pieces, t),
    back: (s) => timeAt(pieces, s),
  };
}

function shareAt(pieces: readonly Piece[], time: number): number {
  const piece = pieces.find((p) => time < p.to) ?? pieces.at(-1);
  if (!piece) return 0;
  const along = Math.min(1, Math.max(0, (time - piece.from) / (piece.to - piece.from)));
  return piece.left + along * (piece.right - piece.left);
}

function timeAt(pieces: readonly Piece[], share: number): number {
  const piece = pieces.find((p) => share < p.right) ?? pieces.at(-1);
  if (!piece) return 0;
  const along = Math.min(1, Math.max(0, (share - piece.left) / (piece.right - piece.left || 1)));
  return piece.from + along * (piece.to - piece.from);
}
