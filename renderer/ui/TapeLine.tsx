import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react';
import css from './TapeLine.module.css';

type TapeProps = {
  /** Where it lies, 0 (left) to 1 (right). */
  readonly value: number;
  readonly onChange?: (value: number) => void;
  readonly label: string;
  /** What the place means, said to the ear: "9.5 h". */
  readonly said?: string;
  /** Places it likes to stop at, 0..1: exact optima, whole hours. Arrows then go from one to the next. */
  readonly snap?: readonly number[];
  /** Double click and Home of the middle: where it rests. */
  readonly rest?: number;
};

const STEP = 0.01;
const SHIFT_STEPS = 5;

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}

function nearest(value: number, snap: readonly number[] | undefined): number {
  if (!snap || snap.length === 0) return clamp(value);
  return snap.reduce((best, one) => (Math.abs(one - value) < Math.abs(best - value) ? one : best));
}

function stepped(value: number, snap: readonly number[] | undefined, steps: number): number {
  if (!snap || snap.length === 0) return clamp(value + steps * STEP);
  const sorted = [...snap].sort((a, b) => a - b);
  const at = sorted.indexOf(nearest(value, sorted));
  return sorted[Math.min(sorted.length - 1, Math.max(0, at + steps))] ?? value;
}

/**
 * The tape line: two states of one thing lie either side of it. Drag it; arrows step, with Shift five;
 * double click puts it back in the middle. Stands in a positioned box and runs its full height.
 */
export function TapeLine(props: TapeProps): ReactNode {
  const line = useRef<HTMLDivElement>(null);
  const { value, onChange, snap } = props;
  const rest = props.rest ?? 0.5;

  function toPointer(event: PointerEvent): void {
    const box = line.current?.parentElement?.getBoundingClientRect();
    if (!box || box.width === 0) return;
    onChange?.(nearest(clamp((event.clientX - box.left) / box.width), snap));
  }
  function press(event: KeyboardEvent): void {
    const steps = event.shiftKey ? SHIFT_STEPS : 1;
    const to: Readonly<Record<string, number>> = {
      ArrowLeft: stepped(value, snap, -steps),
      ArrowRight: stepped(value, snap, steps),
      ArrowDown: stepped(value, snap, -steps),
      ArrowUp: stepped(value, snap, steps),
      Home: nearest(0, snap),
      End: nearest(1, snap),
    };
    const next = to[event.key];
    if (next === undefined) return;
    event.preventDefault();
    onChange?.(next);
  }

  const place = { left: `${value * 100}%` };
  if (!onChange) return <div className={css['tape']} data-fixed="true" style={place} aria-hidden="true" />;
  return (
    <div
      ref={line}
      className={css['tape']}
      style={place}
      role="slider"
      tabIndex={0}
      aria-label={props.label}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(value * 100)}
      aria-valuetext={props.said}
      aria-orientation="horizontal"
      onPointerDown={(e) => e.currentTarget.setPointerCapture(e.pointerId)}
      onPointerMove={(e) => {
        if (e.currentTarget.hasPointerCapture(e.pointerId)) toPointer(e);
      }}
      onKeyDown={press}
      onDoubleClick={() => onChange(nearest(rest, snap))}
    />
  );
}

/** Two pictures of one thing in the same place; the tape wipes between them. */
export function Wipe(props: {
  readonly label: string;
  readonly left: ReactNode;
  readonly right: ReactNode;
  readonly start?: number;
}): ReactNode {
  const [value, setValue] = useState(props.start ?? 0.5);
  return (
    <div className={css['wipe']}>
      <div className={css['side']} style={{ clipPath: `inset(-40px ${(1 - value) * 100}% -40px -40px)` }}>
        {props.left}
      </div>
      <div className={css['side']} style={{ clipPath: `inset(-40px -40px -40px ${value * 100}%)` }}>
        {props.right}
      </div>
      <TapeLine label={props.label} value={value} onChange={setValue} />
    </div>
  );
}
