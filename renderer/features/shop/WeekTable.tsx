import { type ReactNode, useState } from 'react';
import type { WeeklyHours } from '#core/shared/examples.ts';
import { hours } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { hourCycleOf } from '#core/shared/text/when.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { SpanField } from './SpanField.tsx';
import css from './shop.module.css';
import {
  dayName,
  hourText,
  LIKE_MONDAY,
  likeMonday,
  ofDay,
  spansText,
  type Unread,
  unreadKey,
  unreadOf,
  WEEKDAYS,
  weekMinutes,
  withDay,
  withoutDays,
  withUnread,
} from './week.ts';

/** One week that is typed day by day: when the shop works, when the desk hands cars over, when somebody works. */
export type WeekLine = {
  /** What the texts of this week that can't be read are kept under. */
  readonly id: string;
  readonly label: string;
  readonly week: readonly WeeklyHours[];
};

const DAY = [{ startMin: 480, endMin: 1020 }];
const HALVES = [
  { startMin: 480, endMin: 720 },
  { startMin: 780, endMin: 1020 },
];

/** Seven days: a bar over the clock, and each week's spans to be typed. The first is the bar, the second the line below. */
export function WeekTable(props: {
  readonly lines: readonly WeekLine[];
  /** All the weeks, in the order of the lines. */
  readonly onChange: (weeks: readonly (readonly WeeklyHours[])[]) => void;
  readonly off?: string | undefined;
  /** Where texts that can't be read are kept over a change of page; else they live as long as the table is shown. */
  readonly unread?: Unread;
  readonly onUnread?: (unread: Unread) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const cycle = hourCycleOf(manner.region);
  const [own, setOwn] = useState<Unread>({});
  const unread = props.unread ?? own;
  const keep = props.onUnread ?? setOwn;
  const wrong = unreadOf(
    unread,
    props.lines.map((line) => line.id),
  );
  const put = (next: (line: WeekLine, at: number) => readonly WeeklyHours[]): void =>
    props.onChange(props.lines.map(next));
  function likeMon(): void {
    keep(withoutDays(unread, LIKE_MONDAY));
    put((line) => likeMonday(line.week));
  }
  return (
    <div className={css['week']} data-lines={props.lines.length}>
      <div className={css['weekRow']} data-head="true">
        <span />
        <ClockMarks cycle={cycle} />
        {props.lines.map((line) => (
          <span key={line.label} className="t1 quiet cut">
            {line.label}
          </span>
        ))}
        <span />
      </div>
      {WEEKDAYS.map((day) => (
        <DayRow
          key={day}
          day={day}
          lines={props.lines}
          off={props.off}
          unread={unread}
          onUnread={keep}
          onChange={(at, spans) => put((line, i) => (i === at ? withDay(line.week, day, spans) : line.week))}
        />
      ))}
      <WeekSum lines={props.lines} off={props.off} onLikeMonday={likeMon} />
      <p className={wrong ? css['wrong'] : 't1 dusty'} role={wrong ? 'alert' : undefined}>
        {t('shop.spanHow', { plain: spansText(DAY, cycle), broken: spansText(HALVES, cycle) })}
      </p>
    </div>
  );
}

/** Tuesday to Friday as Monday is, and the hours of the first week. */
function WeekSum(props: {
  readonly lines: readonly WeekLine[];
  readonly off: string | undefined;
  readonly onLikeMonday: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <div className={css['weekRow']} data-sum="true">
      <b>{t('shop.week')}</b>
      <LinkButton quiet why={props.off} onPress={props.onLikeMonday}>
        {t('shop.likeMonday')}
      </LinkButton>
      {props.lines.map((line) => (
        <span key={line.label} />
      ))}
      <b className="num">{amountText(hours(manner, weekMinutes(props.lines[0]?.week ?? [])))}</b>
    </div>
  );
}

type Spans = readonly { readonly startMin: number; readonly endMin: number }[];

/** One day: its bars, a field for each week, its hours. */
function DayRow(props: {
  readonly day: number;
  readonly lines: readonly WeekLine[];
  readonly off: string | undefined;
  readonly unread: Unread;
  readonly onUnread: (unread: Unread) => void;
  readonly onChange: (line: number, spans: Spans) => void;
}): ReactNode {
  const manner = useManner();
  const { day, lines, unread } = props;
  const cycle = hourCycleOf(manner.region);
  return (
    <div className={css['weekRow']}>
      <span>{dayName(manner, day)}</span>
      <DayBars day={day} lines={lines} />
      {lines.map((line, at) => (
        <SpanField
          key={line.label}
          label={`${dayName(manner, day)}, ${line.label}`}
          text={spansText(ofDay(line.week, day), cycle)}
          cycle={cycle}
          off={props.off}
          unread={unread[unreadKey(line.id, day)]}
          onUnread={(text) => props.onUnread(withUnread(unread, unreadKey(line.id, day), text))}
          onChange={(spans) => props.onChange(at, spans)}
        />
      ))}
      <span className="num quiet">
        {amountText(hours(manner, weekMinutes(ofDay(lines[0]?.week ?? [], day))))}
      </span>
    </div>
  );
}

/** The stretch of the day that is drawn; whatever lies outside is still in the figures. */
const FROM = 6 * 60;
const TO = 20 * 60;

function across(minute: number): number {
  return (Math.min(TO, Math.max(FROM, minute)) - FROM) / ((TO - FROM) / 100);
}

function ClockMarks(props: { readonly cycle: 12 | 24 }): ReactNode {
  return (
    <span className={css['weekMarks']} aria-hidden="true">
      {[8, 12, 16].map((hour) => (
        <i key={hour} className="num" style={{ left: `${across(hour * 60)}%` }}>
          {hourText(hour, props.cycle)}
        </i>
      ))}
    </span>
  );
}

function DayBars(props: { readonly day: number; readonly lines: readonly WeekLine[] }): ReactNode {
  const closed = props.lines.every((line) => ofDay(line.week, props.day).length === 0);
  return (
    <span className={css['weekBars']} data-closed={closed} aria-hidden="true">
      {props.lines.flatMap((line, at) =>
        ofDay(line.week, props.day).map((span) => (
          <i
            key={`${line.label} ${span.startMin}`}
            data-line={at}
            style={{
              left: `${across(span.startMin)}%`,
              width: `${across(span.endMin) - across(span.startMin)}%`,
            }}
          />
        )),
      )}
    </span>
  );
}
