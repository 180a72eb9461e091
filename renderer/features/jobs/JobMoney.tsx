import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import css from './jobs.module.css';

/** What was quoted, held, invoiced and is owed; all with tax. */
export function JobMoney(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const m = props.job.money;
  const lines = [
    ['jobs.quoted', m.quotedMinor],
    ['jobs.deposit', m.depositMinor],
    ['jobs.invoiced', m.invoicedMinor],
    ['jobs.owed', m.owedMinor],
  ] as const;
  return (
    <section>
      <Head level={3} title={t('jobs.money')} />
      <div className={css['pairs']}>
        {lines.map(([key, minor]) => [
          <span key={key} className="quiet">
            {t(key)}
          </span>,
          <span key={`${key}-minor`} className={key === 'jobs.owed' && minor ? 'lamp num' : 'num'}>
            {minor === null ? '–' : money(manner, minor)}
          </span>,
        ])}
      </div>
    </section>
  );
}
