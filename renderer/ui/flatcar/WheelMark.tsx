import type { ReactNode } from 'react';
import type { Wheel } from '#core/shared/flatcar/drawing.ts';
import { path } from '#core/shared/flatcar/path.ts';
import css from './FlatCar.module.css';

const SPOKES = [0, 1, 2, 3, 4] as const;

/** A wheel laid flat: it gives the drawing its ground, and is never worked on. */
export function WheelMark(props: { readonly wheel: Wheel }): ReactNode {
  const { x, y, r } = props.wheel;
  return (
    <g className={css['wheel']}>
      <circle cx={x} cy={y} r={r} />
      <circle cx={x} cy={y} r={r * 0.66} />
      <circle cx={x} cy={y} r={6} />
      {SPOKES.map((i) => {
        const a = ((i * 72 - 90) * Math.PI) / 180;
        const [c, s] = [Math.cos(a), Math.sin(a)];
        const d = path('M', x + c * 9, y + s * 9, 'L', x + c * r * 0.62, y + s * r * 0.62);
        return <path key={i} d={d} />;
      })}
    </g>
  );
}
