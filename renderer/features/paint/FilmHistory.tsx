import { type ReactNode, useState } from 'react';
import type { VehicleId } from '#core/shared/ids.ts';
import { film } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { when } from '#core/shared/text/when.ts';
import type { FilmHistoryView, FilmView, RemovalView, VisitFilmView } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { LifeBar } from './LifeBar.tsx';
import css from './paint.module.css';

/** Panels without a figure: likely painted anew, or nobody can say. */
const UNKNOWN = {
  refinished: { state: 'cross', label: '?', boxed: true },
  other: { state: 'unread' },
} as const;

/** Film of a vehicle over all its visits: what was read, what was taken, what is left. */
export function FilmHistoryScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const found = useQuery('paint.filmHistory', { vehicleId: props.params['vehicleId'] as VehicleId });
  if (!found.data)
    return (
      <Place label={t('paint.history')}>
        {found.error ? <Refusal refusal={found.error} /> : <Waiting />}
      </Place>
    );
  return <History view={found.data} />;
}

function History(props: { readonly view: FilmHistoryView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const [panel, setPanel] = useState<PanelId>('bo');
  const budget = view.budgets.find((b) => b.panel === panel)?.budget;
  const looks = Object.fromEntries(
    view.budgets.map(({ panel: id, budget: b }) => [
      id,
      b.mayTenthUm === null
        ? { ...UNKNOWN[b.why === 'refinished' ? 'refinished' : 'other'], said: t(`word.may.${b.why}`) }
        : {
            shares: { done: b.takenTenthUm / Math.max(1, b.capTenthUm), work: 0 },
            label: film(manner, b.mayTenthUm).value,
            said: t(`word.may.${b.why}`),
            boxed: true,
            lit: b.mayTenthUm < b.capTenthUm / 4,
          },
    ]),
  );
  return (
    <Place label={t('paint.history')} columns="even">
      <Column label={t('paint.history')}>
        <Head level={1} title={t('paint.history')} note={t('paint.historyLeft')} />
        <div className={css['car']}>
          <FlatCar
            body={view.body}
            label={t('paint.history')}
            look={looks}
            selected={[panel]}
            onPanel={setPanel}
          />
        </div>
        {budget ? <LifeBar budget={budget} /> : null}
      </Column>
      <Column label={panelName(manner.locale, panel, view.body)} divided>
        <Head
          title={<span className={css['name']}>{panelName(manner.locale, panel, view.body)}</span>}
          note={t('paint.historyReadings', { unit: film(manner, 0).unit })}
        />
        {view.visits.length === 0 ? (
          <Empty title={t('paint.historyEmpty')} />
        ) : (
          <VisitTable visits={view.visits} panel={panel} />
        )}
      </Column>
    </Place>
  );
}

function VisitTable(props: {
  readonly visits: readonly VisitFilmView[];
  readonly panel: PanelId;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const of = (v: VisitFilmView) => v.panels.find((p) => p.panel === props.panel);
  const read = (f: FilmView | null | undefined): string => (f ? film(manner, f.meanTenthUm).value : '–');
  return (
    <Table<VisitFilmView>
      label={t('paint.history')}
      rowKey={(v) => v.jobId}
      rows={props.visits}
      columns={[
        { key: 'when', head: t('paint.visit'), cell: (v) => when(manner, v.atMs, Date.now()) },
        { key: 'before', head: t('paint.readBefore'), align: 'right', cell: (v) => read(of(v)?.before) },
        { key: 'after', head: t('paint.readAfter'), align: 'right', cell: (v) => read(of(v)?.after) },
        {
          key: 'between',
          head: t('paint.between'),
          cell: (v) => <Removal removal={of(v)?.removal ?? null} />,
        },
      ]}
    />
  );
}

function Removal(props: { readonly removal: RemovalView | null }): ReactNode {
  const t = useText();
  const manner = useManner();
  const r = props.removal;
  if (!r) return null;
  const said = (tenth: number): string => amountText(film(manner, tenth));
  const booked = said(r.bookedTenthUm);
  if (r.shownTenthUm === null) return t('paint.removed.planned', { booked });
  const value = said(r.shownTenthUm);
  return r.shown ? t('paint.removed.shown', { value }) : t('paint.removed.notShown', { value, booked });
}
