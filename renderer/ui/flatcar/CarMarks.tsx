import { type ReactNode, type RefObject, useLayoutEffect, useState } from 'react';
import type { BodyDrawing } from '#core/shared/flatcar/drawing.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import type { PanelLook } from './CarPanel.tsx';
import css from './FlatCar.module.css';

/** Figures on panels grow a little with the car, but stay legible; in pixels of the screen. */
function labelPixels(carPixels: number): number {
  return Math.min(18, Math.max(13, carPixels * 0.0225));
}
const SIDE_PX = 13;

/** Drawing units in one pixel of the screen, so that figures keep their size however large the car is drawn. */
export function useUnitsPerPixel(svg: RefObject<SVGSVGElement | null>, width: number): number {
  const [unit, setUnit] = useState(1.5);
  useLayoutEffect(() => {
    const element = svg.current;
    if (!element) return;
    const measure = (): void => {
      const box = element.getBoundingClientRect();
      const high = element.viewBox.baseVal.height;
      const scale = Math.min(box.width / width, box.height / high);
      if (scale > 0) setUnit(1 / scale);
    };
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    measure();
    return () => watch.disconnect();
  }, [svg, width]);
  return unit;
}

/** Glass, lamps and creases. */
export function Fittings(props: { readonly drawing: BodyDrawing; readonly mini: boolean }): ReactNode {
  const { glass, creases } = props.drawing;
  return (
    <g className={css['quiet']}>
      <g className={css['glass']}>
        {glass.map((d) => (
          <path key={d} d={d} />
        ))}
      </g>
      {props.mini ? null : (
        <g className={css['crease']}>
          {creases.map((d) => (
            <path key={d} d={d} />
          ))}
        </g>
      )}
    </g>
  );
}

/** Figures written on panels; in a floor-coloured box where the ground is strong or the figure is lit. */
export function Labels(props: {
  readonly drawing: BodyDrawing;
  readonly look: Readonly<Partial<Record<PanelId, PanelLook>>> | undefined;
  readonly unit: number;
}): ReactNode {
  const size = labelPixels(props.drawing.viewBox[2] / props.unit) * props.unit;
  return Object.entries(props.look ?? {}).map(([panel, look]) => {
    const shape = props.drawing.panels[panel as PanelId];
    if (!shape || !look.label) return null;
    const [x, y] = shape.at;
    const width = look.label.length * size * 0.58 + size * 0.6;
    const boxed = look.boxed || look.lit;
    return (
      <g
        key={panel}
        className={css['panelLabel']}
        data-lit={look.lit ?? false}
        data-on={boxed ? undefined : look.state}
      >
        {boxed ? (
          <rect
            className={css['labelBox']}
            x={x - width / 2}
            y={y - size * 0.65}
            width={width}
            height={size * 1.25}
          />
        ) : null}
        <text className={css['label']} x={x} y={y} fontSize={size}>
          {look.label}
        </text>
      </g>
    );
  });
}

export type SideWords = {
  readonly front: string;
  readonly rear: string;
  readonly left: string;
  readonly right: string;
};

/** Says which way the drawing lies. */
export function Sides(
  props: SideWords & { readonly drawing: BodyDrawing; readonly unit: number },
): ReactNode {
  const [x, y, width, height] = props.drawing.viewBox;
  const middle = x + width / 2;
  const size = SIDE_PX * props.unit;
  return (
    <g className={css['sides']} fontSize={size}>
      <text x={x - size} y={0}>
        {props.front}
      </text>
      <text x={x + width + size} y={0}>
        {props.rear}
      </text>
      <text x={middle} y={y + height + size * 0.3}>
        {props.left}
      </text>
      <text x={middle} y={y - size * 0.3}>
        {props.right}
      </text>
    </g>
  );
}
