import type { ReactNode } from 'react';
import { count, hours } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { HonestyRow } from '#core/shared/views/figures.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import css from './figures.module.css';

/** Length of the longest bar; the figure stands beside it. */
const BAR_PX = 38;
/** A drift beyond this needs a look. */
export const LIT_PPM = 100_000;

/** What a row stands for, in words. */
export function nameOf(t: Say, row: HonestyRow): string {
  const { label } = row;
  if (label.kind === 'stage') return t(`word.stage.${label.stage}`);
  if (label.kind === 'hardness') return t(`word.hardness.${label.hardness}`);
  if (label.kind === 'condition') return t(`figures.condition.${label.condition}`);
  return label.kind === 'text' ? label.text : t('figures.all');
}

/** Estimated against actual of each group, either side of the tape; `kept` adds how many stayed within the longer time. */
export function Either(props: {
  readonly rows: readonly HonestyRow[];
  readonly all: HonestyRow;
  readonly kept?: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const most = Math.max(1, ...props.rows.map((r) => Math.max(r.estimatedMin, r.actualMin)));
  return (
    <div className={css['either']} data-kept={props.kept ?? false}>
      <div className={css['eitherHead']}>
        <span>{t('figures.hoursHead')}</span>
        <span data-align="right">{t('figures.estimated')}</span>
        <span />
        <span>{t('figures.actual')}</span>
        <span data-align="right">{t('figures.drift')}</span>
        {props.kept ? <span data-align="right">{t('figures.keptShare')}</span> : null}
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
          {props.kept ? <span className={css['kept']}>{keptText(t, manner, row)}</span> : null}
        </div>
      ))}
    </div>
  );
}

/** Of so many stages so many per cent. */
function keptText(t: Say, manner: Manner, row: HonestyRow): string {
  const percent = row.stages === 0 ? 0 : Math.round((row.within / row.stages) * 100);
  return t('figures.keptOf', { percent, stages: count(manner, row.stages) });
}

/** A difference with its sign. */
export function signed(manner: Manner, value: number): string {
  return value > 0.5 ? `+${count(manner, value)}` : count(manner, value);
}
