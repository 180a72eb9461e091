import type { StageKind } from '#core/shared/vocabulary.ts';
import { type Calendar, lastAtOrBelow, type Span } from './calendar.ts';

/** Work that throws dust, and work whose surface takes it up until it has cured. Common practice, no source. */
export function isCutting(kind: StageKind | undefined): boolean {
  return kind === 'cut';
}
export function isCoating(kind: StageKind | undefined): boolean {
  return kind === 'protect' || kind === 'cure';
}

/** The minutes that two sorted lists of spans share. */
export function overlapOf(a: readonly Span[], b: readonly Span[]): readonly Span[] {
  const spans: Span[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const [x, y] = [a[i], b[j]];
    if (!x || !y) break;
    const startMin = Math.max(x.startMin, y.startMin);
    const endMin = Math.min(x.endMin, y.endMin);
    if (startMin < endMin) spans.push({ startMin, endMin });
    if (x.endMin < y.endMin) i += 1;
    else j += 1;
  }
  return spans;
}

/** Spans in order, those that touch or overlap made one. */
export function joined(spans: readonly Span[]): readonly Span[] {
  const all: Span[] = [];
  for (const span of spans.toSorted((a, b) => a.startMin - b.startMin)) {
    const last = all.at(-1);
    if (last && span.startMin <= last.endMin)
      all[all.length - 1] = { startMin: last.startMin, endMin: Math.max(last.endMin, span.endMin) };
    else if (span.endMin > span.startMin) all.push(span);
  }
  return all;
}

/** The first of several sorted spans apart from each other that ends after `t`. */
export function firstAfter(spans: readonly Span[], t: number): Span | undefined {
  return spans.find((s) => s.endMin > t);
}

/** The open spans of a calendar within `[startMin, endMin)`. */
export function openWithin(cal: Calendar, { startMin, endMin }: Span): readonly Span[] {
  const spans: Span[] = [];
  for (let i = Math.max(0, lastAtOrBelow(cal.starts, startMin)); i < cal.starts.length; i += 1) {
    const from = Math.max(startMin, cal.starts[i] ?? endMin);
    const to = Math.min(endMin, cal.ends[i] ?? endMin);
    if (from >= endMin) break;
    if (from < to) spans.push({ startMin: from, endMin: to });
  }
  return spans;
}
