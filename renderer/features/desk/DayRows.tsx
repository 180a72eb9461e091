import type { ReactNode } from 'react';
import { lasting, money } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { clock, dayTimeFrom, when } from '#core/shared/text/when.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { ArrivingCar, CarInBay, DeskCar, GoingHomeCar, RailBar } from '#core/shared/views/desk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block, Flag, NowLine, TimeLines } from '../../ui/time/Time.tsx';
import css from './desk.module.css';

const FORMS = { done: 'done', work: 'work', planned: 'plan', cure: 'cure', late: 'late' } as const;

/** The rail that all rows of the day share. */
export type Day = {
  readonly scale: TimeScale;
  readonly nowMs: number;
  readonly ticks: { at: number; label: string }[];
};

/** Whether a word fits its block on the narrowest rail (320 px): about 8 px a letter and the padding. */
function fits(scale: TimeScale, bar: RailBar, word: string): boolean {
  const width = (scale.at(Math.min(bar.endMs, scale.to)) - scale.at(Math.max(bar.startMs, scale.from))) * 320;
  return width > word.length * 8 + 12;
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
            {fits(scale, bar, t(`word.stage.${bar.stage}`)) ? t(`word.stage.${bar.stage}`) : null}
          </Block>
        ))}
      {props.children}
      <NowLine scale={scale} at={nowMs} />
    </div>
  );
}

/** The hour of today, or the day with it. */
function hourOf(manner: Manner, at: number, { nowMs }: Day): string {
  const same = localDayOf(at, manner.zone) === localDayOf(nowMs, manner.zone);
  return same ? clock(manner, at) : dayTimeFrom(manner, at, nowMs);
}

function Who(props: { readonly car: DeskCar }): ReactNode {
  const { jobId, customer, makeModel } = props.car;
  return (
    <span className={css['two']}>
      <a className="cut strong" href={`#/jobs/${jobId}`} title={customer}>
        {customer}
      </a>
      <span className="t1 quiet cut" title={makeModel}>
        {makeModel}
      </span>
    </span>
  );
}

/** A car that comes today. */
export function Arriving(props: { readonly car: ArrivingCar; readonly day: Day }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { car, day } = props;
  const at = car.dropOffMin === null ? null : car.dropOffMin * 60_000;
  const first = car.firstStage === null ? '' : t(`word.stage.${car.firstStage}`);
  return (
    <div className={css['row']} data-lit={car.lateMin > 0}>
      <time className="quiet">{at === null ? '' : hourOf(manner, at, day)}</time>
      <Who car={car} />
      {car.lateMin > 0 ? <NoWord car={car} /> : <span className="cut quiet">{first}</span>}
      <Rail day={day} bars={car.bars} />
      {car.arrivedMs === null ? (
        <span className={css['two']}>
          <LinkTo to={`/jobs/${car.jobId}/arrive`}>{t('desk.takeIn')}</LinkTo>
          {car.lateMin > 0 ? <LinkTo to={`/jobs/${car.jobId}?end=noShow`}>{t('jobs.noShow')}</LinkTo> : null}
        </span>
      ) : (
        <span className="quiet num">{t('desk.inAt', { time: clock(manner, car.arrivedMs) })}</span>
      )}
    </div>
  );
}

/** How long a car has been waited for, and the number to ring. */
function NoWord(props: { readonly car: ArrivingCar }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { lateMin, phone } = props.car;
  return (
    <span className={css['two']}>
      <span className="cut lamp">{t('desk.lateNoWord', { late: amountText(lasting(manner, lateMin)) })}</span>
      {phone ? <a href={`tel:${phone}`}>{t('desk.ring', { phone })}</a> : null}
    </span>
  );
}

/** A cure that has had its time: the car waits for somebody to go on. */
function isCured(car: CarInBay, day: Day): boolean {
  return car.cureEndsMs !== null && car.cureEndsMs <= day.nowMs;
}

function progressOf(car: CarInBay, day: Day, manner: Manner, t: ReturnType<typeof useText>): string {
  const stage = car.stage === null ? t('desk.noStage') : t(`word.stage.${car.stage}`);
  if (car.panelsDone.length > 0)
    return t('desk.panels', { stage, done: car.panelsDone.length, of: car.panelCount });
  if (car.cureEndsMs === null) return stage;
  const time = hourOf(manner, car.cureEndsMs, day);
  return isCured(car, day) ? t('desk.cureOver', { stage, time }) : t('desk.cureTo', { stage, time });
}

/** A car that stands in a bay or on the yard. */
export function InBay(props: { readonly car: CarInBay; readonly day: Day }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { car, day } = props;
  const look: Partial<Record<string, PanelLook>> = {};
  for (const panel of car.panelsInWork) look[panel] = { state: 'work' };
  for (const panel of car.panelsDone) look[panel] = { state: 'done' };
  const progress = progressOf(car, day, manner, t);
  const cured = isCured(car, day);
  const out = car.pickUpMin === null ? t('desk.card') : when(manner, car.pickUpMin * 60_000, day.nowMs);
  return (
    <div className={css['row']} data-lit={car.late || cured} data-tall="true">
      <span className="quiet cut" title={car.bay}>
        {car.bay}
      </span>
      <Who car={car} />
      <span className={css['bay']}>
        <FlatCar body={car.body} label={progress} look={look} size="mini" />
        <span className={css['two']}>
          <span className={cured ? 'cut lamp' : 'cut'}>{progress}</span>
          <span className="t1 quiet cut">{car.who.join(', ') || t('desk.nobody')}</span>
        </span>
      </span>
      <Rail day={day} bars={car.bars}>
        {car.pickUpMin !== null && car.pickUpMin * 60_000 < day.scale.to ? (
          <Flag scale={day.scale} at={car.pickUpMin * 60_000} lit={car.late} />
        ) : null}
      </Rail>
      <LinkTo to={`/jobs/${car.jobId}/card`}>{out}</LinkTo>
    </div>
  );
}

/** A car that goes home today, or should have. */
export function GoingHome(props: { readonly car: GoingHomeCar; readonly day: Day }): ReactNode {
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
      <time className="quiet">{at === null ? '' : hourOf(manner, at, day)}</time>
      <Who car={car} />
      <span className={`cut ${said ? 'lamp' : 'quiet'}`}>
        {said ?? [state, due].filter(Boolean).join(', ')}
      </span>
      <Rail day={day} bars={car.bars}>
        {at === null || at > day.scale.to ? null : <Flag scale={day.scale} at={at} lit={car.late} />}
      </Rail>
      {car.state === 'ready' ? (
        <LinkTo to={`/jobs/${car.jobId}/hand-over`}>{t('desk.handOver')}</LinkTo>
      ) : (
        <LinkTo to={`/jobs/${car.jobId}`}>{t('desk.job')}</LinkTo>
      )}
    </div>
  );
}
