import { type ReactNode, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { HonestyRow, HonestyView } from '#core/shared/views/figures.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Either, LIT_PPM, nameOf } from './Either.tsx';
import css from './figures.module.css';

export const GROUPS = ['stage', 'technician', 'paint', 'condition'] as const;
export type Group = (typeof GROUPS)[number];

export function rowsOf(view: HonestyView, group: Group): readonly HonestyRow[] {
  return {
    stage: view.byStage,
    technician: view.byTechnician,
    paint: view.byHardness,
    condition: view.byCondition,
  }[group];
}

/** Estimated against actual on one scale, either side of the tape. */
export function HonestHours(props: { readonly fromDay: LocalDay; readonly toDay: LocalDay }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [group, setGroup] = useState<Group>('stage');
  const view = useQuery('figures.honesty', props);
  const all = view.data?.all;
  return (
    <section aria-label={t('figures.honest')}>
      <Head
        title={t('figures.honest')}
        note={all ? t('figures.honestNote', { stages: all.stages }) : undefined}
      />
      <Refusal refusal={view.error} />
      {view.loading ? <Waiting /> : null}
      {view.data && all && all.stages > 0 ? (
        <>
          <p className={css['say']}>{sentence(t, manner, view.data)}</p>
          <Words
            label={t('figures.by')}
            value={group}
            onChange={setGroup}
            options={GROUPS.map((g) => ({ value: g, label: t(`figures.by.${g}`) }))}
          />
          <Either rows={rowsOf(view.data, group)} all={all} />
        </>
      ) : view.data ? (
        <Empty title={t('figures.honestNone')} />
      ) : null}
    </section>
  );
}

function sentence(t: Say, manner: Manner, view: HonestyView): string {
  const { all } = view;
  const said = t('figures.kept', { within: count(manner, all.within), stages: count(manner, all.stages) });
  const worst = view.byStage.filter((r) => r.stages >= 3).toSorted((a, b) => b.driftPpm - a.driftPpm)[0];
  if (!worst || worst.driftPpm < 1_000_000 + LIT_PPM) return said;
  return `${said} ${t('figures.runsOver', { stage: nameOf(t, worst) })}`;
}
