import type { BodyDrawing } from '#core/shared/flatcar/drawing.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';

/** The order a person walks round a car with a lamp: front, left side, rear, right side, top. */
const WALK: readonly PanelId[] = [
  ...(['fb', 'lfw', 'lap', 'lfd', 'lmi', 'lsl', 'lrd', 'lcr', 'lcp', 'lrq'] as const),
  ...(['rb', 'rrq', 'rcp', 'rcr', 'rrd', 'rsl', 'rfd', 'rmi', 'rap', 'rfw'] as const),
  ...(['bo', 'ro', 'bl'] as const),
];

/** The walk over the panels a body has. */
export function walkOf(drawing: BodyDrawing): readonly PanelId[] {
  return WALK.filter((panel) => drawing.panels[panel] !== undefined);
}
