import { DRAWINGS } from '../shared/flatcar/bodies.ts';
import { pathBox } from '../shared/flatcar/path.ts';
import type { BodyStyle, Level, PanelId } from '../shared/vocabulary.ts';

type Doc = PDFKit.PDFDocument;
type Place = { readonly x: number; readonly y: number; readonly width: number };

/** How a level is printed: told apart by form, readable from a bad printer. */
const FORM: Readonly<Record<Level, 'full' | 'hatched' | 'open'>> = {
  sanded: 'full',
  threeStage: 'full',
  twoStage: 'full',
  oneStage: 'hatched',
  washOnly: 'open',
  leave: 'open',
};
/** Drawing units between two lines of the hatch: about 5 pt on paper, so that a bad printer does not close it. */
const PITCH = 22;

/** Height in points of a body's flat drawing at a width. */
export function carHeight(body: BodyStyle, width: number): number {
  const [, , w, h] = DRAWINGS[body].viewBox;
  return (width * h) / w;
}

/**
 * Draws the flat car: full = two stages or more, hatched = one stage, outlined = washed and protected.
 * `place` in points; the drawing is scaled to its width.
 */
export function drawCar(doc: Doc, body: BodyStyle, levels: ReadonlyMap<PanelId, Level>, place: Place): void {
  const { panels, glass, wheels, viewBox } = DRAWINGS[body];
  const scale = place.width / viewBox[2];
  doc.save();
  doc.translate(place.x, place.y).scale(scale).translate(-viewBox[0], -viewBox[1]);
  doc.lineWidth(1.4);
  for (const { x, y, r } of wheels) doc.circle(x, y, r).stroke('#888');
  for (const d of glass) doc.path(d).fillAndStroke('#e4e4e4', '#bbb');
  for (const [panel, shape] of Object.entries(panels)) {
    const form = FORM[levels.get(panel as PanelId) ?? 'leave'];
    if (form === 'hatched') hatch(doc, shape.d);
    if (form === 'full') doc.path(shape.d).fillAndStroke('#8a8a8a', '#000');
    else doc.path(shape.d).stroke(form === 'hatched' ? '#000' : '#777');
  }
  doc.restore();
}

/** Slanted lines inside one outline. */
function hatch(doc: Doc, d: string): void {
  const [left, top, right, bottom] = pathBox(d);
  const height = bottom - top;
  doc.save();
  doc.path(d).clip();
  for (let x = left - height; x < right; x += PITCH) doc.moveTo(x, bottom).lineTo(x + height, top);
  doc.lineWidth(1.6).stroke('#333');
  doc.restore();
}
