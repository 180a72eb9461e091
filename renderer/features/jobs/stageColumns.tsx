import type { ReactNode } from 'react';
import { count, hours, hoursRange } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import type { StageView } from '#core/shared/views/bookings.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { Column } from '../../ui/Table.tsx';

/** Columns of a job's stages: planned against worked, how many panels, where and by whom. */
export function stageColumns(t: Say, manner: Manner): readonly Column<StageView>[] {
  return [
    {
      key: 'stage',
      head: t('jobs.stage'),
      width: '228px',
      cell: (s) => named(s, t),
    },
    {
      key: 'planned',
      head: t('jobs.planned'),
      align: 'right',
      width: '132px',
      cell: (s) => planned(s, manner),
    },
    {
      key: 'worked',
      head: t('jobs.actual'),
      align: 'right',
      width: '76px',
      cell: (s) => (s.attendedMs === 0 ? '–' : amountText(hours(manner, s.attendedMs / 60_000))),
    },
    {
      key: 'panels',
      head: t('card.panels'),
      align: 'right',
      width: '64px',
      cell: (s) =>
        s.panels.length === 0 ? '' : `${count(manner, panelsDone(s))}/${count(manner, s.panels.length)}`,
    },
    {
      key: 'where',
      head: t('jobs.where'),
      cell: (s) => (
        <span className="cut quiet" title={where(s, manner)}>
          {where(s, manner)}
        </span>
      ),
    },
  ];
}

function named(s: StageView, t: Say): ReactNode {
  return (
    <>
      <strong>{t(`word.stage.${s.kind}`)}</strong>{' '}
      <span className={s.state === 'inWork' ? 'cool' : 'quiet'}>{t(`word.stageState.${s.state}`)}</span>
      {s.crew === 2 ? <span className="quiet">, {t('card.two')}</span> : null}
    </>
  );
}

function planned(s: StageView, manner: Manner): ReactNode {
  if (s.crew === 0) return amountText(hours(manner, s.dwellMin));
  return (
    <>
      {amountText(hours(manner, s.p50Min))}
      <span className="range">{hoursRange(manner, s.p20Min, s.p80Min)}</span>
    </>
  );
}

/** A stage that is done is done on all its panels, whether somebody ticked them or not. */
function panelsDone(s: StageView): number {
  return s.state === 'done' ? s.panels.length : s.panelsDone.length;
}

/** Where and when a stage is planned, or was begun, and by whom; of one that is done only who worked on it. */
export function where(s: StageView, manner: Manner): string {
  const worked = s.work.map((w) => w.person.name);
  const planned = s.state === 'done' && worked.length > 0 ? [] : (s.place?.people ?? []).map((p) => p.name);
  const people = new Set([...worked, ...planned]);
  const startMs = s.startedMs ?? (s.place && s.place.startMin * 60_000);
  const at = startMs === null ? '' : when(manner, startMs, Date.now());
  return [s.place?.bay ?? '', at, [...people].join(', ')].filter((text) => text !== '').join(', ');
}
