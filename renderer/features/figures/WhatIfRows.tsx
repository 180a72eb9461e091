import type { ReactNode } from 'react';
import { range } from '#core/shared/text/format.ts';
import type { Band, WhatIfRow, WhatIfView } from '#core/shared/views/whatIf.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Interval } from '../../ui/charts/Bars.tsx';
import { TapeLine } from '../../ui/TapeLine.tsx';
import css from './whatIf.module.css';
import { endsOf, isShown, nameOf, scaleOf, signed, written } from './whatIf.ts';

/** Each figure either side of the tape, both bands on one scale; what the difference is to the right. */
export function WhatIfRows(props: { readonly view: WhatIfView }): ReactNode {
  const t = useText();
  return (
    <div className={css['rows']}>
      <div className={css['head']} aria-hidden="true">
        <span>{t('whatIf.measure')}</span>
        <span data-align="right">{t('whatIf.past')}</span>
        <span data-align="right">{t('whatIf.before')}</span>
        <span />
        <span>{t('whatIf.after')}</span>
        <span data-align="right">{t('whatIf.difference')}</span>
      </div>
      <div className={css['tape']} aria-hidden="true">
        <span>
          <TapeLine value={0.5} label={t('whatIf.either')} />
        </span>
      </div>
      {props.view.rows.map((row) => (
        <Line key={row.measure} row={row} name={nameOf(t, row.measure, props.view)} />
      ))}
    </div>
  );
}

function Line(props: { readonly row: WhatIfRow; readonly name: string }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { row, name } = props;
  const { measure, past, difference } = row;
  const ends = endsOf(t, manner, row);
  const shown = isShown(manner, row);
  return (
    <div className={css['line']} data-measure={measure}>
      <span className={css['name']} title={name}>
        <b>{name}</b> <small>{t(`whatIf.u.${measure}`, { currency: manner.currency })}</small>
      </span>
      <span className={css['past']}>{past === null ? '–' : written(manner, measure, past)}</span>
      <Side row={row} side="before" name={name} />
      <span />
      <Side row={row} side="after" name={name} />
      <span className={css['difference']} data-shown={shown}>
        {shown ? (
          <>
            <b>{signed(manner, measure, difference.mid)}</b> <small>{ends}</small>
          </>
        ) : (
          <small title={ends}>{t('whatIf.notShown')}</small>
        )}
      </span>
    </div>
  );
}

function Side(props: {
  readonly row: WhatIfRow;
  readonly side: 'before' | 'after';
  readonly name: string;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { row, side } = props;
  const band: Band = row[side];
  const say = (value: number): string => written(manner, row.measure, value);
  const said = { low: say(band.low), mid: say(band.mid), high: say(band.high) };
  return (
    <span className={css['side']} data-side={side}>
      <b>{said.mid}</b>
      <Interval
        {...band}
        {...scaleOf(row)}
        form={side === 'before' ? 'plan' : 'done'}
        label={`${props.name}, ${t(`whatIf.${side}`)}: ${t('whatIf.bandSaid', said)}`}
      />
      <small>{range(said.low, said.high)}</small>
    </span>
  );
}
