import { type KeyboardEvent, type MouseEvent, type ReactNode, type RefObject, useRef } from 'react';
import { DRAWINGS } from '#core/shared/flatcar/bodies.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { BodyStyle, PanelId } from '#core/shared/vocabulary.ts';
import { useManner } from '../../bridge/texts.tsx';
import { Fittings, Labels, Sides, type SideWords, useUnitsPerPixel } from './CarMarks.tsx';
import { CarPanel, type PanelLook } from './CarPanel.tsx';
import css from './FlatCar.module.css';
import { WheelMark } from './WheelMark.tsx';
import { walkOf } from './walk.ts';

export type PickHow = { readonly extend: boolean; readonly at: { readonly x: number; readonly y: number } };

export type FlatCarProps = {
  readonly body: BodyStyle;
  readonly label: string;
  /** How each panel looks; left out means plain. */
  readonly look?: Readonly<Partial<Record<PanelId, PanelLook>>>;
  readonly selected?: readonly PanelId[];
  /**
   * A click, Enter or Space on a panel; `extend` with Ctrl, Shift or Space; `at` in drawing units. Where panels are
   * selected an arrow picks too; where a press does something at once, arrows only walk.
   */
  readonly onPanel?: (panel: PanelId, how: PickHow) => void;
  /** A key on a focused panel that the drawing itself does not use (digits, letters). */
  readonly onKey?: (panel: PanelId, event: KeyboardEvent) => void;
  /** Further marks on top, in drawing units. */
  readonly over?: ReactNode;
  /** Writes front, rear, left, right around the car. */
  readonly sides?: SideWords;
  readonly size?: 'full' | 'mini';
};

type Hands = {
  readonly pick: (panel: PanelId, event: MouseEvent) => void;
  readonly press: (panel: PanelId, event: KeyboardEvent) => void;
};

/** What mouse and keys do on the panels of a car. */
function useHands(props: FlatCarProps, svg: RefObject<SVGSVGElement | null>): Hands {
  const drawing = DRAWINGS[props.body];
  const walk = walkOf(drawing);
  function pick(panel: PanelId, event: MouseEvent): void {
    const point = new DOMPoint(event.clientX, event.clientY);
    const at = point.matrixTransform(svg.current?.getScreenCTM()?.inverse());
    props.onPanel?.(panel, { extend: event.ctrlKey || event.metaKey || event.shiftKey, at });
  }
  function press(panel: PanelId, event: KeyboardEvent): void {
    const to = nextOnWalk(walk, panel, event.key);
    if (to) {
      event.preventDefault();
      svg.current?.querySelector<SVGGElement>(`[data-panel="${to}"]`)?.focus();
      if (props.selected !== undefined && !event.shiftKey) pickCentre(to, false);
    } else if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      pickCentre(panel, event.key === ' ');
    } else props.onKey?.(panel, event);
  }
  function pickCentre(panel: PanelId, extend: boolean): void {
    const [x, y] = drawing.panels[panel]?.at ?? [0, 0];
    props.onPanel?.(panel, { extend, at: { x, y } });
  }
  return { pick, press };
}

/** The flat car: the map of the work. One tab stop; arrows walk round it (front, left, rear, right, top). */
export function FlatCar(props: FlatCarProps): ReactNode {
  const svg = useRef<SVGSVGElement>(null);
  const drawing = DRAWINGS[props.body];
  const unit = useUnitsPerPixel(svg, drawing.viewBox[2]);
  const live = props.onPanel !== undefined;
  return (
    <svg
      ref={svg}
      className={css['car']}
      data-size={props.size ?? 'full'}
      viewBox={drawing.viewBox.join(' ')}
      role={live ? 'group' : 'img'}
      aria-label={props.label}
    >
      <g className={css['quiet']}>
        {drawing.wheels.map((wheel) => (
          <WheelMark key={`${wheel.x} ${wheel.y}`} wheel={wheel} />
        ))}
      </g>
      <Panels car={props} svg={svg} />
      <Fittings drawing={drawing} mini={props.size === 'mini'} />
      {props.selected?.map((panel) => (
        <path key={panel} className={css['selected']} d={drawing.panels[panel]?.d} />
      ))}
      {props.size === 'mini' ? null : <Labels drawing={drawing} look={props.look} unit={unit} />}
      {props.over}
      {props.sides ? <Sides drawing={drawing} unit={unit} {...props.sides} /> : null}
    </svg>
  );
}

function Panels(props: {
  readonly car: FlatCarProps;
  readonly svg: RefObject<SVGSVGElement | null>;
}): ReactNode {
  const { locale } = useManner();
  const { body, look, selected, onPanel } = props.car;
  const drawing = DRAWINGS[body];
  const walk = walkOf(drawing);
  const hands = useHands(props.car, props.svg);
  const live = onPanel !== undefined;
  const home = selected?.find((panel) => walk.includes(panel)) ?? walk[0];
  return walk.map((panel) => (
    <CarPanel
      key={panel}
      panel={panel}
      name={panelName(locale, panel, body)}
      shape={drawing.panels[panel]}
      look={look?.[panel]}
      selected={selected?.includes(panel) ?? false}
      tab={live ? (panel === home ? 0 : -1) : undefined}
      onPick={live ? hands.pick : undefined}
      onPress={live ? hands.press : undefined}
    />
  ));
}

function nextOnWalk(walk: readonly PanelId[], panel: PanelId, key: string): PanelId | undefined {
  const at = walk.indexOf(panel);
  const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  const step = steps[key];
  return step === undefined ? undefined : walk[(at + step + walk.length) % walk.length];
}
