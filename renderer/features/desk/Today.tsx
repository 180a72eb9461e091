import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import { clock, dayOf } from '#core/shared/text/when.ts';
import type { ArrivingCar, CarInBay, DeskView, GoingHomeCar, RailBar } from '#core/shared/views/bookings.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { timeScale } from '../../ui/time/scale.ts';
import { Block, DayRail, Flag, NowLine, TimeLines } from '../../ui/time/Time.tsx';
import css from './desk.module.css';

const HOUR = 3_600_000;
const FORMS = { done: 'done', work: 'work', planned: 'plan', cure: 'cure', late: 'late' } as const;

type Day = {
  readonly scale: TimeScale;
  readonly nowMs: number;
  readonly ticks: { at: number; label: string }[];
};

/** The day on one rail: arriving, in the bays, going home. */
export function Today(props: { readonly view: DeskView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const from = (view.openMin ?? Math.floor(view.nowMs / 60_000) - 120) * 60_000;
  const to = (view.closeMin ?? Math.floor(view.nowMs / 60_000) + 360) * 60_000;
  const ticks: { at: number; label: string }[] = [];
  for (let at = Math.ceil(from / HOUR) * HOUR; at <= to; at += 2 * HOUR)
    ticks.push({ at, label: clock(manner, at).slice(0, 2) });
  const scale = timeScale({ from, to, open: [{ from, to }], closedAs: 0 });
  const day: Day = { scale, nowMs: view.nowMs, ticks };
  const hoursOpen =
    view.openMin === null || view.closeMin === null
      ? t('desk.closed')
      : t('desk.open', { from: clock(manner, from), to: clock(manner, to) });
  return (
    <div className={css['today']}>
      <Head title={t('desk.today')} level={1} note={`${dayOf(manner, view.nowMs)}, ${hoursOpen}`}>
        <LinkTo to="/take-in">{t('desk.takeCall')}</LinkTo>
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

function Rail(props: {
  readonly day: Day;
  readonly bars: readonly RailBar[];
  readonly children?: ReactNode;
}): ReactNode {
  const t = useText();
  const { scale, nowMs, ticks } = props.day;
  return (
    <div className={css['rail']}>
      <TimeLines scale={scale} ticks={ticks} />
      {props.bars
        .filter((bar) => bar.endMs > scale.from && bar.startMs < scale.to)
        .map((bar) => (
          <Block
            key={`${bar.stage}${bar.startMs}${bar.form}`}
            scale={scale}
            from={bar.startMs}
            to={bar.endMs}
            form={FORMS[bar.form]}
            top={6}
            height={24}
            title={t(`word.stage.${bar.stage}`)}
          >
            {bar.endMs - bar.startMs > HOUR ? t(`word.stage.${bar.stage}`) : null}
          </Block>
        ))}
      {props.children}
      <NowLine scale={scale} at={nowMs} />
    </div>
  );
}

function Name(props: { readonly jobId: string; readonly name: string }): ReactNode {
  return (
    <a className="cut strong" href={`#/jobs/${props.jobId}`} title={props.name}>
      {props.name}
    </a>
  );
}

function Arriving(props: { readonly car: ArrivingCar; readonly day: Day }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { car, day } = props;
  const at = car.dropOffMin === null ? null : car.dropOffMin * 60_000;
  const first = car.firstStage === null ? '' : t(`word.stage.${car.firstStage}`);
  return (
    <div className={css['row']} data-lit={car.lateMin > 0}>
      <time className="quiet">{at === null ? '' : clock(manner, at)}</time>
      <Name jobId={car.jobId} name={car.customer} />
      <span className="cut quiet">{car.makeModel}</span>
      <Rail day={day} bars={car.bars}>
        <span className={`${css['note']} cut ${car.lateMin > 0 ? 'lamp' : 'quiet'}`}>
          {car.lateMin > 0 ? t('desk.lateNoWord', { min: car.lateMin }) : first}
        </span>
      </Rail>
      {car.arrivedMs === null ? (
        <LinkTo to={`/jobs/${car.jobId}/arrive`}>{t('desk.takeIn')}</LinkTo>
      ) : (
        <span className="quiet num">{t('desk.inAt', { time: clock(manner, car.arrivedMs) })}</span>
      )}
    </div>
  );
}

function InBay(props: { readonly car: CarInBay; readonly day: Day }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { car, day } = props;
  const look: Partial<Record<string, PanelLook>> = {};
  for (const panel of car.panelsInWork) look[panel] = { state: 'work' };
  for (const panel of car.panelsDone) look[panel] = { state: 'done' };
  const stage = car.stage === null ? t('desk.noStage') : t(`word.stage.${car.stage}`);
  const progress =
    car.panelsDone.length > 0
      ? t('desk.panels', { stage, done: car.panelsDone.length, of: car.panelCount })
      : car.cureEndsMs === null
        ? stage
        : t('desk.cureTo', { stage, time: clock(manner, car.cureEndsMs) });
  const out = car.pickUpMin === null ? '' : dayOf(manner, car.pickUpMin * 60_000);
  return (
    <div className={css['row']} data-lit={car.late} data-tall="true">
      <span className="quiet cut" title={car.bay}>
        {car.bay}
      </span>
      <span className={css['two']}>
        <Name jobId={car.jobId} name={car.customer} />
        <span className="t1 quiet cut">{car.makeModel}</span>
      </span>
      <span className={css['bay']}>
        <FlatCar body={car.body} label={progress} look={look} size="mini" />
        <span className={css['two']}>
          <span className="cut">{progress}</span>
          <span className="t1 quiet cut">{car.who.join(', ') || t('desk.nobody')}</span>
        </span>
      </span>
      <Rail day={day} bars={car.bars}>
        {car.pickUpMin !== null && car.pickUpMin * 60_000 < day.scale.to ? (
          <Flag scale={day.scale} at={car.pickUpMin * 60_000} lit={car.late} />
        ) : null}
      </Rail>
      <LinkTo to={`/jobs/${car.jobId}/card`}>
        {car.pickUpMin === null ? t('desk.card') : `${out} ${clock(manner, car.pickUpMin * 60_000)}`}
      </LinkTo>
    </div>
  );
}

function GoingHome(props: { readonly car: GoingHomeCar; readonly day: Day }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { car, day } = props;
  const at = car.pickUpMin === null ? null : car.pickUpMin * 60_000;
  const owes = car.owedMinor !== null && car.owedMinor > 0;
  const said = car.uncollectedDays > 0 ? t('desk.notFetched', { days: car.uncollectedDays }) : null;
  const state = car.state === 'ready' || car.state === 'collected' ? t(`word.jobState.${car.state}`) : '';
  const due = owes && car.owedMinor !== null ? t('desk.due', { money: money(manner, car.owedMinor) }) : '';
  return (
    <div className={css['row']} data-lit={car.late || said !== null}>
      <time className="quiet">{at === null ? '' : clock(manner, at)}</time>
      <Name jobId={car.jobId} name={car.customer} />
      <span className="cut quiet">{car.makeModel}</span>
      <Rail day={day} bars={car.bars}>
        {at === null ? null : <Flag scale={day.scale} at={at} lit={car.late} />}
        <span className={`${css['note']} cut ${said ? 'lamp' : 'quiet'}`}>
          {said ?? [state, due].filter(Boolean).join(', ')}
        </span>
      </Rail>
      {car.state === 'ready' ? (
        <LinkTo to={`/jobs/${car.jobId}/hand-over`}>{t('desk.handOver')}</LinkTo>
      ) : (
        <LinkTo to={`/jobs/${car.jobId}`}>{t('desk.job')}</LinkTo>
      )}
    </div>
  );
}
