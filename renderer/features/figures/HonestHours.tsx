import { type ReactNode, useState } from 'react';
import { count, hours } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { HonestyRow, HonestyView } from '#core/shared/views/figures.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import css from './figures.module.css';

const GROUPS = ['stage', 'technician', 'paint'] as const;
type Group = (typeof GROUPS)[number];
/** Length of the longest bar; the figure stands beside it. */
const BAR_PX = 38;
/** A drift beyond this needs a look. */
const LIT_PPM = 100_000;

function rowsOf(view: HonestyView, group: Group): readonly HonestyRow[] {
  return { stage: view.byStage, technician: view.byTechnician, paint: view.byHardness }[group];
}

function nameOf(t: Say, row: HonestyRow): string {
  const { label } = row;
  if (label.kind === 'stage') return t(`word.stage.${label.stage}`);
  if (label.kind === 'hardness') return t(`word.hardness.${label.hardness}`);
  return label.kind === 'text' ? label.text : t('figures.all');
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

function Either(props: { readonly rows: readonly HonestyRow[]; readonly all: HonestyRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const most = Math.max(1, ...props.rows.map((r) => Math.max(r.estimatedMin, r.actualMin)));
  return (
    <div className={css['either']}>
      <div className={css['eitherHead']}>
        <span>{t('figures.hoursHead')}</span>
        <span data-align="right">{t('figures.estimated')}</span>
        <span />
        <span>{t('figures.actual')}</span>
        <span data-align="right">{t('figures.drift')}</span>
      </div>
      {[...props.rows, props.all].map((row) => (
        <div
          key={row.key}
          className={css['eitherRow']}
          data-lit={row.driftPpm > 1_000_000 + LIT_PPM}
          data-all={row === props.all}
        >
          <span className={css['eitherName']} title={nameOf(t, row)}>
            {nameOf(t, row)}
          </span>
          <span className={css['left']}>
            <b>{hours(manner, row.estimatedMin).value}</b>
            {row === props.all ? null : (
              <i data-form="plan" style={{ width: `${(row.estimatedMin / most) * BAR_PX}px` }} />
            )}
          </span>
          <span className={css['tape']} aria-hidden="true" />
          <span className={css['rightSide']}>
            {row === props.all ? null : (
              <i data-form="done" style={{ width: `${(row.actualMin / most) * BAR_PX}px` }} />
            )}
            <b>{hours(manner, row.actualMin).value}</b>
          </span>
          <span className={css['drift']}>{signed(manner, row.driftPpm / 10_000 - 100)} %</span>
        </div>
      ))}
    </div>
  );
}

function signed(manner: Manner, value: number): string {
  return value > 0.5 ? `+${count(manner, value)}` : count(manner, value);
}
