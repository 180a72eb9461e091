import type { ReactNode } from 'react';
import { clock, dayOf, hourMark } from '#core/shared/text/when.ts';
import type { DeskView } from '#core/shared/views/desk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { timeScale } from '../../ui/time/scale.ts';
import { DayRail } from '../../ui/time/Time.tsx';
import { wholeHours } from '../../ui/time/wholeHours.ts';
import { Arriving, type Day, GoingHome, InBay } from './DayRows.tsx';
import css from './desk.module.css';

const HOUR = 3_600_000;

/** The day on one rail: arriving, in the bays, going home. */
export function Today(props: { readonly view: DeskView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const opens = (view.openMin ?? Math.floor(view.nowMs / 60_000) - 120) * 60_000;
  const closes = (view.closeMin ?? Math.floor(view.nowMs / 60_000) + 360) * 60_000;
  // An early or late hour at the desk stretches the rail a little, so that the present is on it.
  const near = view.nowMs > opens - 2 * HOUR && view.nowMs < closes + 2 * HOUR;
  const from = near ? Math.min(opens, view.nowMs - HOUR / 4) : opens;
  const to = near ? Math.max(closes, view.nowMs + HOUR / 4) : closes;
  const ticks = wholeHours(from, to, manner.zone, 2).map((at) => ({ at, label: hourMark(manner, at) }));
  const scale = timeScale({ from, to, open: [{ from, to }], closedAs: 0 });
  const day: Day = { scale, nowMs: view.nowMs, ticks };
  const hoursOpen =
    view.openMin === null || view.closeMin === null
      ? t('desk.closed')
      : t('desk.open', { from: clock(manner, opens), to: clock(manner, closes) });
  return (
    <div className={css['today']}>
      <Head title={t('desk.today')} level={1} note={`${dayOf(manner, view.nowMs)}, ${hoursOpen}`}>
        <LinkTo to="/take-in?next">{t('desk.takeCall')}</LinkTo>
      </Head>
      <div className={css['row']}>
        <span />
        <span />
        <span />
        <DayRail scale={scale} ticks={ticks} />
        <span />
      </div>
      <Part title={t('desk.arriving')} count={view.arriving.length}>
        {view.arriving.map((car) => (
          <Arriving key={car.jobId} car={car} day={day} />
        ))}
      </Part>
      <Part title={t('desk.inBays')} count={view.inBays.length}>
        {view.inBays.map((car) => (
          <InBay key={car.jobId} car={car} day={day} />
        ))}
      </Part>
      <Part title={t('desk.goingHome')} count={view.goingHome.length}>
        {view.goingHome.map((car) => (
          <GoingHome key={car.jobId} car={car} day={day} />
        ))}
      </Part>
    </div>
  );
}

function Part(props: {
  readonly title: string;
  readonly count: number;
  readonly children: ReactNode;
}): ReactNode {
  const t = useText();
  return (
    <section aria-label={props.title}>
      <Head level={2} title={props.title} note={props.count === 0 ? t('desk.none') : String(props.count)} />
      {props.children}
    </section>
  );
}
