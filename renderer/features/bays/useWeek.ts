import { useMemo, useState } from 'react';
import { weekday } from '#core/shared/text/when.ts';
import { addLocalDays, isoWeekday, localDayOf, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { type Answer, useQuery } from '../../bridge/queries.ts';
import { useManner } from '../../bridge/texts.tsx';
import { type TimeScale, timeScale } from '../../ui/time/scale.ts';
import type { Tick } from '../../ui/time/Time.tsx';

/** How much width a closed stretch takes, in minutes of open time. */
const CLOSED_AS = 96;

export type Week = {
  readonly monday: LocalDay;
  readonly board: Answer<BoardView>;
  readonly scale: TimeScale | null;
  readonly ticks: readonly Tick[];
  readonly turn: (weeks: number) => void;
};

/** The week that is shown, by the shop's own clock once it is known. */
export function useWeek(): Week {
  const manner = useManner();
  const [offset, setOffset] = useState(0);
  const [nowMs, setNow] = useState(() => Date.now());
  const today = localDayOf(nowMs, manner.zone);
  const monday = addLocalDays(today, 1 - isoWeekday(today) + offset * 7);
  const board = useQuery('bays.board', { fromDay: monday, toDay: addLocalDays(monday, 6) }, { keep: true });
  const data = board.data;
  if (data && Math.abs(data.nowMin - nowMs / 60_000) > 10) setNow(data.nowMin * 60_000);
  const scale = useMemo(() => (data ? scaleOf(data) : null), [data]);
  const ticks = useMemo(
    () =>
      Array.from({ length: 7 }, (_, i): Tick => {
        const day = addLocalDays(monday, i);
        const noon = minuteOf(day, 720, manner.zone);
        const first = data?.open.find((o) => o.endMin > noon - 720 && o.startMin < noon + 720);
        const at = Math.max(first?.startMin ?? 0, noon - 720);
        return {
          at,
          label: `${weekday(manner, noon * 60_000)} ${Number(day.slice(8))}`,
          strong: day === today,
        };
      }),
    [monday, manner, data, today],
  );
  return { monday, board, scale, ticks, turn: (weeks) => setOffset(weeks === 0 ? 0 : offset + weeks) };
}

function scaleOf(board: BoardView): TimeScale {
  const open = board.open.map((o) => ({ from: o.startMin, to: o.endMin }));
  return timeScale({ from: board.fromMin, to: board.toMin, open, closedAs: CLOSED_AS });
}
