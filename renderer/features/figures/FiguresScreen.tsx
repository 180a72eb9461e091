import type { ReactNode } from 'react';
import { addLocalDays, isoWeekday } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Place } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { BayHours } from './BayHours.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import css from './figures.module.css';
import { HonestHours } from './HonestHours.tsx';
import { Margins } from './Margins.tsx';
import { OwedAndOrder } from './OwedAndOrder.tsx';

const WEEKS = 8;

/** Whole ISO weeks up to the one that holds `today`. */
function weeksUpTo(today: LocalDay): { readonly fromDay: LocalDay; readonly toDay: LocalDay } {
  const sunday = addLocalDays(today, 7 - isoWeekday(today));
  return { fromDay: addLocalDays(sunday, 1 - WEEKS * 7), toDay: sunday };
}

/** The owner's look back: bay hours on top, honest hours, what jobs brought, what is owed and to order below. */
export function FiguresScreen(): ReactNode {
  const t = useText();
  const money = useQuery('billing.readDesk', {});
  return (
    <Place label={t('figures.title')}>
      {money.data ? (
        <div className={css['page']}>
          <FiguresNav />
          <BayHours weeks={WEEKS} {...weeksUpTo(money.data.today)} />
          <div className={css['row']}>
            <div>
              <HonestHours fromDay={addLocalDays(money.data.today, -180)} toDay={money.data.today} />
            </div>
            <div>
              <Margins fromDay={addLocalDays(money.data.today, -90)} toDay={money.data.today} />
            </div>
            <div>
              <OwedAndOrder money={money.data} />
            </div>
          </div>
        </div>
      ) : (
        <div>
          <FiguresNav />
          <Refusal refusal={money.error} />
          {money.loading ? <Waiting /> : null}
        </div>
      )}
    </Place>
  );
}
