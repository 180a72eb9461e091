import type { Calendar } from './calendar.ts';
import type { Board, Piece, Technician } from './model.ts';

/** How the validator reads hours: interval by interval, by code of its own. */

export function peopleOf(board: Board, piece: Piece): readonly Technician[] {
  return piece.personIds.flatMap((id) => board.technicians.find((t) => t.id === id) ?? []);
}

export function within(cal: Calendar, t: number): boolean {
  return cal.starts.some((start, i) => start <= t && t < (cal.ends[i] ?? 0));
}

/** Minutes of `[from, to)` that all of them have open, counted interval by interval. */
export function openIn(people: readonly Technician[], from: number, to: number): number {
  const [first, ...others] = people;
  if (!first) return 0;
  let sum = 0;
  first.hours.starts.forEach((start, i) => {
    const a = Math.max(from, start);
    const b = Math.min(to, first.hours.ends[i] ?? 0);
    if (b > a) sum += others.length === 0 ? b - a : openIn(others, a, b);
  });
  return sum;
}
