import type { ReactNode } from 'react';
import css from './Hatch.module.css';

/**
 * The hatches and the raking-light edge as shared SVG patterns, once in the page. Same angle and pitch as forms.css.
 * Use as fill="url(#hatch)" (chalk), #hatch-lamp, #hatch-lamp-back, #hatch-cool, #cross; stroke="url(#raking)".
 */
export function HatchDefs(): ReactNode {
  return (
    <svg width="0" height="0" className={css['defs']} aria-hidden="true" focusable="false">
      <defs>
        <linearGradient id="raking" x1="0" x2="1" y1="0" y2="0">
          <stop offset="0" className={css['lit0']} />
          <stop offset=".16" className={css['lit1']} />
          <stop offset="1" className={css['lit2']} />
        </linearGradient>
        <Hatch id="hatch" pitch={7} angle={45} name="chalk" />
        <Hatch id="hatch-lamp" pitch={6} angle={45} name="lamp" />
        <Hatch id="hatch-lamp-back" pitch={6} angle={-45} name="lamp" />
        <Hatch id="hatch-cool" pitch={6} angle={45} name="coolLine" />
        <pattern id="cross" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className={css['crossLine']} d="M0 0V8M0 0H8" />
        </pattern>
      </defs>
    </svg>
  );
}

function Hatch(props: {
  readonly id: string;
  readonly pitch: number;
  readonly angle: number;
  readonly name: string;
}): ReactNode {
  const { pitch } = props;
  return (
    <pattern
      id={props.id}
      width={pitch}
      height={pitch}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${props.angle})`}
    >
      <path className={css[props.name]} d={`M0 0V${pitch}`} />
    </pattern>
  );
}
