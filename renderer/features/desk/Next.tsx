import type { ReactNode } from 'react';
import { clock, dayText } from '#core/shared/text/when.ts';
import type { NextDay } from '#core/shared/views/desk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { CalmNote } from '../../ui/States.tsx';
import css from './desk.module.css';

/** What the next open day brings, by the clock: for a look before locking up, or on a day off. */
export function Next(props: { readonly next: NextDay }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { next } = props;
  const at = (min: number): string => clock(manner, min * 60_000);
  const cars = [
    ...next.arriving.map((car) => ({ ...car, way: t('desk.nextComes') })),
    ...next.goingHome.map((car) => ({ ...car, way: t('desk.nextGoes') })),
  ].sort((a, b) => a.atMin - b.atMin);
  const title = t('desk.next', { day: dayText(manner, next.day) });
  return (
    <section className={css['part']} aria-label={title}>
      <Head level={2} title={title} note={t('desk.nextOpens', { at: at(next.openMin) })} />
      {cars.length === 0 ? <CalmNote>{t('desk.nextNothing')}</CalmNote> : null}
      {cars.map((car) => (
        <div key={`${car.jobId}${car.way}`} className={css['nextRow']}>
          <time className="quiet">{at(car.atMin)}</time>
          <a className="cut strong" href={`#/jobs/${car.jobId}`} title={car.customer}>
            {car.customer}
          </a>
          <span className="quiet cut">{car.makeModel}</span>
          <span className="quiet">{car.way}</span>
        </div>
      ))}
    </section>
  );
}
