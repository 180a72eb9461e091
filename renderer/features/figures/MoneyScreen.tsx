import type { ReactNode } from 'react';
import type { MoneyFiguresView } from '#core/shared/views/figuresMoney.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Brought } from './Brought.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import css from './figures.module.css';
import { LabourNote } from './LabourNote.tsx';
import { useLookBack } from './LookBack.tsx';
import { MarginOver } from './MarginOver.tsx';
import { MoneyNow } from './MoneyNow.tsx';
import { QuoteBands } from './QuoteBands.tsx';

/** What the shop's work brought, and what is held and owed. */
export function MoneyScreen(): ReactNode {
  const t = useText();
  const { range, words } = useLookBack();
  const view = useQuery('figures.money', range, { keep: true });
  return (
    <Place label={t('figures.page.money')} columns="one">
      <div className={css['page']}>
        <FiguresNav />
        {words}
        <Refusal refusal={view.error} />
        {view.loading ? <Waiting /> : null}
        {view.data ? <Money view={view.data} /> : null}
      </div>
    </Place>
  );
}

function Money(props: { readonly view: MoneyFiguresView }): ReactNode {
  const t = useText();
  const { view } = props;
  const file = useDocument('figures.moneyFile');
  const range = { fromDay: view.fromDay, toDay: view.toDay };
  const csv = (table: 'kind' | 'technician' | 'time' | 'quotes' | 'owed') => () =>
    void file.save({ ...range, table });
  return (
    <div className={css['two']}>
      <div>
        <Refusal refusal={file.refusal} />
        {view.total.jobs === 0 ? <Empty title={t('figures.marginNone')} /> : null}
        {view.total.jobs > 0 ? (
          <>
            <Brought
              title={t('figures.byKind')}
              rows={view.byKind}
              total={view.total}
              nameOf={(row) => t(`jobs.purpose.${row.key}`)}
              busy={file.busy}
              onCsv={csv('kind')}
            />
            <Brought
              title={t('figures.byPerson')}
              rows={view.byTechnician}
              total={view.total}
              nameOf={(row) => (row.key === '' ? t('figures.unclocked') : row.name)}
              busy={file.busy}
              onCsv={csv('technician')}
            />
            <LabourNote view={view} />
          </>
        ) : null}
      </div>
      <div>
        {view.total.jobs > 0 ? <MarginOver view={view} busy={file.busy} onCsv={csv('time')} /> : null}
        <QuoteBands view={view} busy={file.busy} onCsv={csv('quotes')} />
        <MoneyNow view={view} busy={file.busy} onCsv={csv('owed')} />
      </div>
    </div>
  );
}
