import type { PanelId } from '../vocabulary.ts';
import { mirror, type Point } from './path.ts';

/** A panel's outline and where its figure is written. */
export type PanelShape = { readonly d: string; readonly at: Point };
export type Wheel = { readonly x: number; readonly y: number; readonly r: number };

/** The flat drawing of one body. */
export type BodyDrawing = {
  readonly panels: Readonly<Partial<Record<PanelId, PanelShape>>>;
  /** Glass, lamps and an open bed: never painted, never priced. */
  readonly glass: readonly string[];
  /** Quiet lines that give form, not facts. */
  readonly creases: readonly string[];
  readonly wheels: readonly Wheel[];
  readonly viewBox: readonly [x: number, y: number, width: number, height: number];
};

/** Panels of one hand, named as in the panel ids without their l or r. */
export const HAND_PARTS = ['fw', 'fd', 'rd', 'rq', 'sl', 'ap', 'cr', 'cp', 'mi'] as const;
export type HandPart = (typeof HAND_PARTS)[number];
export const CENTRE_PARTS = ['fb', 'bo', 'ro', 'bl', 'rb'] as const;
export type CentrePart = (typeof CENTRE_PARTS)[number];

export type Parts = {
  readonly centre: Readonly<Record<CentrePart, PanelShape>>;
  readonly hand: Readonly<Partial<Record<HandPart, PanelShape>>>;
  readonly glass: readonly string[];
  /** Drawn on both hands. */
  readonly glassPair: readonly string[];
  readonly creases: readonly string[];
  readonly creasePair: readonly string[];
  readonly wheels: readonly Wheel[];
  readonly viewBox: BodyDrawing['viewBox'];
};

/** Adds the upper half, the exact mirror of the lower one. */
export function bothHands(parts: Parts): BodyDrawing {
  const panels: Partial<Record<PanelId, PanelShape>> = { ...parts.centre };
  for (const part of HAND_PARTS) {
    const shape = parts.hand[part];
    if (!shape) continue;
    panels[`l${part}`] = shape;
    panels[`r${part}`] = { d: mirror(shape.d), at: [shape.at[0], -shape.at[1]] };
  }
  return {
    panels,
    glass: [...parts.glass, ...parts.glassPair.flatMap((d) => [d, mirror(d)])],
    creases: [...parts.creases, ...parts.creasePair.flatMap((d) => [d, mirror(d)])],
    wheels: parts.wheels.flatMap((w) => [w, { ...w, y: -w.y }]),
    viewBox: parts.viewBox,
  };
}
