import { type KeyboardEvent, type MouseEvent, memo, type ReactNode, useId } from 'react';
import type { PanelShape } from '#core/shared/flatcar/drawing.ts';
import { pathBox } from '#core/shared/flatcar/path.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { FilmLayer } from './FilmLayer.tsx';
import css from './FlatCar.module.css';
import type { FilmPoint } from './film.ts';

/** The forms a panel can take: see the sheet of forms. */
export type PanelState =
  | 'plain'
  | 'done'
  | 'work'
  | 'hatch'
  | 'outline'
  | 'unread'
  | 'thin'
  | 'cross'
  | 'lit';

export type PanelLook = {
  readonly state?: PanelState;
  /** A short figure written on the panel. */
  readonly label?: string | undefined;
  /** In a floor-coloured box, where the ground is strong. */
  readonly boxed?: boolean;
  /** The figure is lit: this panel needs somebody. */
  readonly lit?: boolean;
  /** Said after the panel's name, to the ear and on hover: "done, 105.8 µm". */
  readonly said?: string;
  /** Marked readings, drawn as bands of film. */
  readonly film?: { readonly readings: readonly FilmPoint[]; readonly thinUm: number };
  /** Shares of a whole, from the left: done, then in work; the rest stays. Each 0..1. */
  readonly shares?: { readonly done: number; readonly work: number };
};

type CarPanelProps = {
  readonly panel: PanelId;
  readonly name: string;
  readonly shape: PanelShape | undefined;
  readonly look: PanelLook | undefined;
  readonly selected: boolean;
  readonly tab: number | undefined;
  readonly onPick: ((panel: PanelId, event: MouseEvent) => void) | undefined;
  readonly onPress: ((panel: PanelId, event: KeyboardEvent) => void) | undefined;
};

/** One panel of the drawing in its state. */
export function CarPanel(props: CarPanelProps): ReactNode {
  const { panel, shape, look, onPick, onPress } = props;
  if (!shape) return null;
  const said = look?.said ? `${props.name}, ${look.said}` : props.name;
  const live = onPick !== undefined;
  const action = live
    ? {
        role: 'button',
        'aria-label': said,
        'aria-pressed': props.selected,
        onClick: (event: MouseEvent) => onPick(panel, event),
        onKeyDown: (event: KeyboardEvent) => onPress?.(panel, event),
      }
    : {};
  return (
    <g
      className={css['panel']}
      data-panel={panel}
      data-state={look?.state ?? 'plain'}
      data-live={live}
      tabIndex={props.tab}
      {...action}
    >
      <title>{said}</title>
      {look?.film && look.film.readings.length > 0 ? (
        <FilmLayer d={shape.d} {...look.film} />
      ) : (
        <path className={css['base']} d={shape.d} />
      )}
      {look?.shares ? <Shares d={shape.d} {...look.shares} /> : null}
      <path className={css['over']} d={shape.d} />
      <path className={css['edge']} d={shape.d} />
    </g>
  );
}

const Shares = memo(function Shares(props: {
  readonly d: string;
  readonly done: number;
  readonly work: number;
}): ReactNode {
  const id = useId();
  const [left, top, right, bottom] = pathBox(props.d);
  const width = right - left;
  const done = width * Math.min(1, props.done);
  const work = width * Math.min(1 - props.done, props.work);
  return (
    <g clipPath={`url(#${id})`}>
      <clipPath id={id}>
        <path d={props.d} />
      </clipPath>
      <rect className={css['shareDone']} x={left} y={top} width={done} height={bottom - top} />
      <rect
        className={css['shareWork']}
        x={left + done}
        y={top}
        width={Math.max(0, work)}
        height={bottom - top}
      />
    </g>
  );
});
