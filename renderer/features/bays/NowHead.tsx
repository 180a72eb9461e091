import type { ReactNode } from 'react';
import type { Manner } from '#core/shared/text/manner.ts';
import { clock } from '#core/shared/text/when.ts';
import { useManner } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import type { Tick } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import { textWidth } from './fit.ts';

function inside(scale: TimeScale, t: number): boolean {
  return scale.from <= t && t <= scale.to;
}

/** Day labels that neither the clock of the now-line, nor the right edge, nor the label before would cut. */
export function clear(
  manner: Manner,
  ticks: readonly Tick[],
  scale: TimeScale,
  nowMin: number,
  width: number,
): readonly Tick[] {
  if (width === 0) return ticks;
  const clockPx = clockWidth(manner, nowMin);
  const now = inside(scale, nowMin) ? scale.at(nowMin) * width : -1000;
  let taken = 0;
  return ticks.filter((tick) => {
    const left = scale.at(tick.at) * width;
    const right = left + textWidth(tick.label, 13, tick.strong ?? false);
    const fits = left >= taken && right <= width && (right < now - 4 || left > now + clockPx);
    if (fits && tick.label !== '') taken = right + 4;
    return fits;
  });
}

/** The clock with its distance from the line and from what follows: with AM and PM it is wider. */
function clockWidth(manner: Manner, nowMin: number): number {
  return textWidth(clock(manner, nowMin * 60_000), 13, true) + 12;
}

/** The clock stands right of the now-line; today's name left of it, or after the clock, where it had no room at its own place. */
export function NowHead(props: {
  readonly scale: TimeScale;
  readonly ticks: readonly Tick[];
  readonly nowMin: number;
  readonly width: number;
}): ReactNode {
  const manner = useManner();
  const { scale, nowMin, width } = props;
  if (!inside(scale, nowMin)) return null;
  const now = scale.at(nowMin) * width;
  const clockPx = clockWidth(manner, nowMin);
  const today = props.ticks.find((tick) => tick.strong);
  const left = today ? scale.at(today.at) * width : 0;
  const wide = today ? textWidth(today.label, 13, true) : 0;
  const moved = today && left + wide >= now - 4 && left <= now + clockPx;
  return (
    <>
      {moved ? (
        <b className={css['nowClock']} style={{ left: now - wide - 6 > 0 ? now - wide - 6 : now + clockPx }}>
          {today.label}
        </b>
      ) : null}
      <b className={css['nowClock']} style={{ left: now + 4 }}>
        {clock(manner, nowMin * 60_000)}
      </b>
    </>
  );
}
