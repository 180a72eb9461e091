import { type PointerEvent, type ReactNode, useRef } from 'react';
import type { SignaturePoint } from '#core/shared/views/bookings.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import css from './jobs.module.css';

export type Strokes = readonly (readonly SignaturePoint[])[];

/** A field to sign in with finger, pen or mouse. Points are 0..1000 of its width and height. */
export function SignField(props: {
  readonly strokes: Strokes;
  readonly onChange: (strokes: Strokes) => void;
}): ReactNode {
  const t = useText();
  const drawing = useRef(false);
  function pointOf(event: PointerEvent<SVGSVGElement>): SignaturePoint {
    const box = event.currentTarget.getBoundingClientRect();
    const clamp = (share: number): number => Math.max(0, Math.min(1000, Math.round(share * 1000)));
    return [clamp((event.clientX - box.left) / box.width), clamp((event.clientY - box.top) / box.height)];
  }
  return (
    <div>
      <svg
        className={css['sign']}
        viewBox="0 0 1000 1000"
        preserveAspectRatio="none"
        role="img"
        aria-label={t('record.sign')}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          drawing.current = true;
          props.onChange([...props.strokes, [pointOf(event)]]);
        }}
        onPointerMove={(event) => {
          if (!drawing.current) return;
          const last = props.strokes.at(-1) ?? [];
          if (last.length < 2000) props.onChange([...props.strokes.slice(0, -1), [...last, pointOf(event)]]);
        }}
        onLostPointerCapture={() => {
          drawing.current = false;
        }}
      >
        {props.strokes.map((stroke, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: strokes are only added at the end
            key={i}
            d={`M${stroke.map(([x, y]) => `${x} ${y}`).join('L')}`}
            vectorEffect="non-scaling-stroke"
          />
        ))}
      </svg>
      <LinkButton quiet onPress={() => props.onChange([])}>
        {t('record.clear')}
      </LinkButton>
    </div>
  );
}
