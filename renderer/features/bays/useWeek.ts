import { useCallback, useMemo, useRef, useState } from 'react';
import type { Manner } from '#core/shared/text/manner.ts';
import { clock, daysText, dayText, weekday } from '#core/shared/text/when.ts';
import { addLocalDays, isoWeek, isoWeekday, localDayOf, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { type Answer, useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { type TimeScale, timeScale } from '../../ui/time/scale.ts';
import type { Tick } from '../../ui/time/Time.tsx';
import { wholeHours } from '../../ui/time/wholeHours.ts';
import { DAYS, firstDay, type Span, turnedFrom } from './weekDays.ts';

/** How much width a closed stretch takes, in minutes of open time. */
const CLOSED_AS = 96;
const HOUR = 60;

export type Week = {
  readonly title: string;
  readonly span: Span;
  readonly board: Answer<BoardView>;
  readonly scale: TimeScale | null;
  readonly ticks: readonly Tick[];
  /** Earlier or later by as much as is shown; 0 goes to today. */
  readonly turn: (by: -1 | 0 | 1) => void;
  readonly show: (span: Span) => void;
  /** Turns to the days that hold a minute, if they are not shown. */
  readonly see: (min: number) => void;
};

/** The stretch of days that is shown, by the shop's own clock once it is known. */
export function useWeek(): Week {
  const t = useText();
  const manner = useManner();
  const [span, setSpan] = useState<Span>('week');
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const [nowMs, setNow] = useState(() => Date.now());
  const today = localDayOf(nowMs, manner.zone);
  const first = firstDay(fromDay, today, span);
  const last = addLocalDays(first, DAYS[span] - 1);
  const { zone } = manner;
  const shown = useRef({ first, last });
  shown.current = { first, last };
  const see = useCallback(
    (min: number): void => {
      const day = localDayOf(min * 60_000, zone);
      if (day < shown.current.first || day > shown.current.last) setFromDay(day);
    },
    [zone],
  );
  const board = useQuery('bays.board', { fromDay: first, toDay: last }, { keep: true });
  const data = board.data;
  if (data && Math.abs(data.nowMin - nowMs / 60_000) > 10) setNow(data.nowMin * 60_000);
  const scale = useMemo(() => (data ? scaleOf(data) : null), [data]);
  const ticks = useMemo(
    () => (data ? ticksOf(data, span, first, today, manner) : []),
    [data, span, first, today, manner],
  );
  return {
    title: titleOf(t, manner, span, first, last),
    ...{ span, board, scale, ticks },
    turn: (by) => setFromDay(by === 0 ? null : turnedFrom(first, by, span)),
    show: setSpan,
    see,
  };
}

function titleOf(t: Say, manner: Manner, span: Span, first: LocalDay, last: LocalDay): string {
  const week = (of: LocalDay): number => Number(isoWeek(of).slice(-2));
  if (span === 'day') return dayText(manner, first);
  if (span === 'week' && isoWeekday(first) !== 1) return daysText(manner, first, last);
  return t(`bays.title.${span}`, { week: week(first), to: week(last) });
}

/** The hours of a day, the days of a week, the Mondays of weeks, each at the first open minute. */
function ticksOf(
  board: BoardView,
  span: Span,
  first: LocalDay,
  today: LocalDay,
  manner: ReturnType<typeof useManner>,
): readonly Tick[] {
  if (span === 'day') return hoursOf(board, manner);
  return Array.from({ length: DAYS[span] }, (_, i): Tick => {
    const day = addLocalDays(first, i);
    const [from, to] = [minuteOf(day, 0, manner.zone), minuteOf(addLocalDays(day, 1), 0, manner.zone)];
    const open = board.open.find((o) => o.endMin > from && o.startMin < to);
    const name = `${weekday(manner, (from + 12 * HOUR) * 60_000)} ${Number(day.slice(8))}`;
    const named = span === 'week' || isoWeekday(day) === 1 || day === today;
    return { at: Math.max(open?.startMin ?? 0, from), label: named ? name : '', strong: day === today };
  });
}

function hoursOf(board: BoardView, manner: ReturnType<typeof useManner>): readonly Tick[] {
  return board.open
    .flatMap((o) => wholeHours(o.startMin * 60_000, o.endMin * 60_000 - 1, manner.zone))
    .map((ms) => ({ at: ms / 60_000, label: clock(manner, ms) }));
}

function scaleOf(board: BoardView): TimeScale {
  const open = board.open.map((o) => ({ from: o.startMin, to: o.endMin }));
  return timeScale({ from: board.fromMin, to: board.toMin, open, closedAs: CLOSED_AS });
}
