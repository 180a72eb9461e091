import type { ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import { isoWeek } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { UtilizationView } from '#core/shared/views/figures.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Chart } from './Chart.tsx';
import css from './figures.module.css';
import { HoursTable } from './HoursTable.tsx';
import { addParts, type BayWeeks, busyShare } from './parts.ts';
import { HoursSum, Strip } from './Strip.tsx';

/** More than this waited on people in one bay and week is lit. */
const LIT_MIN = 240;

function byWeek(view: UtilizationView): readonly BayWeeks[] {
  return view.bays.map((bay) => {
    const weeks = Map.groupBy(bay.cells, (cell) => isoWeek(cell.day));
    return {
      bayId: bay.bayId,
      name: bay.name,
      total: bay.total,
      weeks: [...weeks].map(([name, cells]) => ({ name, parts: addParts(cells) })),
    };
  });
}

/** Every bay over some weeks: what its open hours were spent on. The same as a table, or as a file, with one click. */
export function BayHours(props: {
  readonly weeks: number;
  readonly fromDay: LocalDay;
  readonly toDay: LocalDay;
}): ReactNode {
  const t = useText();
  const { fromDay, toDay } = props;
  const view = useQuery('figures.utilization', { fromDay, toDay });
  const file = useDocument('figures.hoursFile');
  const note = t('figures.bayHoursNote', { weeks: props.weeks });
  if (!view.data || view.data.total.availableMin === 0)
    return (
      <section aria-label={t('figures.bayHours')}>
        <Head title={t('figures.bayHours')} note={note} />
        <Refusal refusal={view.error} />
        {view.loading ? <Waiting /> : null}
        {view.data ? (
          <Empty title={t('figures.none')}>
            <LinkTo to="/shop">{t('ui.place.shop')}</LinkTo>
          </Empty>
        ) : null}
      </section>
    );
  const bays = byWeek(view.data);
  return (
    <div>
      <Chart
        title={t('figures.bayHours')}
        note={note}
        chart={<Strips bays={bays} weeks={props.weeks} />}
        table={<HoursTable bays={bays} />}
        busy={file.busy}
        onCsv={() => void file.save({ fromDay, toDay, by: 'week' })}
      />
      <Refusal refusal={view.error ?? file.refusal} />
      <HoursSum total={view.data.total} />
    </div>
  );
}

function Strips(props: { readonly bays: readonly BayWeeks[]; readonly weeks: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const most = Math.max(1, ...props.bays.flatMap((b) => b.weeks.map((w) => w.parts.availableMin)));
  return (
    <div
      className={css['strips']}
      style={{ gridTemplateColumns: `120px repeat(${props.weeks}, minmax(0, 1fr)) 96px` }}
    >
      <span />
      {props.bays[0]?.weeks.map((w) => (
        <span key={w.name} className={css['weekHead']}>
          {t('figures.week', { week: w.name.slice(-2) })}
        </span>
      ))}
      <span className={css['weekHead']} data-align="right">
        {t('figures.weeks', { weeks: props.weeks })}
      </span>
      {props.bays.map((bay) => (
        <div key={bay.bayId} className={css['bayRow']}>
          <strong className={css['bayName']} title={bay.name}>
            {bay.name}
          </strong>
          {bay.weeks.map((w) => (
            <div key={w.name}>
              <Strip
                parts={w.parts}
                ofMin={most}
                label={`${bay.name}, ${t('figures.week', { week: w.name.slice(-2) })}`}
              />
              <div
                className={css['under']}
                style={{ maxWidth: `${((w.parts.availableMin || most) / most) * 100}%` }}
              >
                <span className={w.parts.availableMin === 0 ? 'quiet' : undefined}>
                  {w.parts.availableMin === 0
                    ? t('figures.part.closed')
                    : hours(manner, w.parts.attendedMin + w.parts.cureMin).value}
                </span>
                {w.parts.waitingMin > LIT_MIN ? (
                  <span className={css['lit']}>{hours(manner, w.parts.waitingMin).value}</span>
                ) : null}
              </div>
            </div>
          ))}
          <span className={css['inUse']} title={t('figures.inUseNote')}>
            {t('figures.inUse', { percent: Math.round(busyShare(bay.total) * 100) })}
          </span>
        </div>
      ))}
    </div>
  );
}
