import { type ReactNode, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import type { HonestyView } from '#core/shared/views/figures.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Chart } from './Chart.tsx';
import { Drift } from './Drift.tsx';
import { Either } from './Either.tsx';
import { Factors } from './Factors.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import css from './figures.module.css';
import { GROUPS, type Group, rowsOf } from './HonestHours.tsx';
import { HonestyTable } from './HonestyTable.tsx';
import { useLookBack } from './LookBack.tsx';
import { Outliers } from './Outliers.tsx';

/** How honest estimates were: either side of the tape, over time, what the next one rests on, and what was far off. */
export function HonestyScreen(): ReactNode {
  const t = useText();
  const { range, words } = useLookBack();
  const view = useQuery('figures.honesty', range, { keep: true });
  return (
    <Place label={t('figures.page.honesty')} columns="one">
      <div className={css['page']}>
        <FiguresNav />
        {words}
        <Refusal refusal={view.error} />
        {view.loading ? <Waiting /> : null}
        {view.data?.all.stages === 0 ? <Empty title={t('figures.honestNone')} /> : null}
        {view.data && view.data.all.stages > 0 ? <Honest view={view.data} /> : null}
      </div>
    </Place>
  );
}

function Honest(props: { readonly view: HonestyView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const [group, setGroup] = useState<Group>('stage');
  const file = useDocument('figures.honestyFile');
  const range = { fromDay: view.fromDay, toDay: view.toDay };
  const rows = rowsOf(view, group);
  return (
    <div className={css['two']}>
      <div>
        <Refusal refusal={file.refusal} />
        <Chart
          title={t('figures.honest')}
          note={t('figures.honestNote', { stages: view.all.stages })}
          busy={file.busy}
          onCsv={() => void file.save({ ...range, table: group })}
          table={<HonestyTable rows={[...rows, view.all]} />}
          chart={
            <>
              <Words
                label={t('figures.by')}
                value={group}
                onChange={setGroup}
                options={GROUPS.map((g) => ({ value: g, label: t(`figures.by.${g}`) }))}
              />
              <Either rows={rows} all={view.all} kept />
            </>
          }
        />
        <p className={css['say']}>{t('figures.loss', { minutes: count(manner, view.all.lossMin, 1) })}</p>
        <Factors />
      </div>
      <div>
        <Drift view={view} busy={file.busy} onCsv={() => void file.save({ ...range, table: 'time' })} />
        <Outliers
          view={view}
          busy={file.busy}
          onCsv={() => void file.save({ ...range, table: 'outliers' })}
        />
      </div>
    </div>
  );
}
