import type { ReactNode } from 'react';
import { count } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { WhatIfStart, WhatIfView } from '#core/shared/views/whatIf.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { ChartBox } from '../../ui/charts/ChartBox.tsx';
import type { ChartTable } from '../../ui/charts/csv.ts';
import { Head } from '../../ui/Layout.tsx';
import { CalmNote, Empty } from '../../ui/States.tsx';
import { WhatIfRows } from './WhatIfRows.tsx';
import css from './whatIf.module.css';
import { inUnit, isWithin, nameOf, saidOf } from './whatIf.ts';
import { askedOf } from './whatIfAsked.ts';

/** What it comes to in words, both sides of the tape with their bands, and what no run can know. */
export function WhatIfAnswer(props: { readonly view: WhatIfView; readonly start: WhatIfStart }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const asked = askedOf(t, manner, view.change, props.start);
  if (view.rounds === 0) return <Empty title={t('whatIf.stoppedEarly')} />;
  return (
    <>
      {asked === '' ? null : <p className={css['asked']}>{asked}</p>}
      <div className={css['said']} role="status">
        {saidOf(t, manner, view).map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {view.rounds < view.roundsAsked ? (
        <CalmNote text={t('whatIf.stopped', { rounds: view.rounds, asked: view.roundsAsked })} />
      ) : null}
      <ChartBox
        title={t('whatIf.week')}
        note={t('whatIf.note', { weeks: view.weeks })}
        table={tableOf(t, manner, view)}
        fileName="what-if"
      >
        <WhatIfRows view={view} />
        <p className={css['small']}>{t('whatIf.bands', { rounds: view.rounds })}</p>
        <p className={css['small']}>{fitOf(t, view)}</p>
      </ChartBox>
      <Limits view={view} />
    </>
  );
}

function fitOf(t: Say, view: WhatIfView): string {
  const known = view.rows.filter((r) => r.past !== null);
  const missed = known.filter((r) => !isWithin(r.past ?? 0, r.before));
  const fits = t('whatIf.fits', { within: known.length - missed.length, all: known.length });
  if (missed.length === 0) return fits;
  const names = missed.map((r) => nameOf(t, r.measure, view)).join(', ');
  return `${fits} ${t('whatIf.misses', { names })}`;
}

function Limits(props: { readonly view: WhatIfView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const shares = {
    wait: count(manner, view.ownWaitPpm / 10_000),
    pause: count(manner, view.ownPausePpm / 10_000),
  };
  return (
    <section aria-label={t('whatIf.cannot')}>
      <Head title={t('whatIf.cannot')} level={3} />
      <ul className={css['limits']}>
        {view.limits.map((limit) => (
          <li key={limit}>{t(`whatIf.limit.${limit}`, shares)}</li>
        ))}
      </ul>
    </section>
  );
}

/** The same in figures, a line for each side of each: the middle run and the two that nine of ten lie between. */
function tableOf(t: Say, manner: Manner, view: WhatIfView): ChartTable {
  const sides = ['before', 'after', 'difference'] as const;
  return {
    columns: [
      t('whatIf.measure'),
      t('whatIf.unit'),
      '',
      t('whatIf.low'),
      t('whatIf.middle'),
      t('whatIf.high'),
    ],
    rows: view.rows.flatMap((row) => {
      const name = [
        nameOf(t, row.measure, view),
        t(`whatIf.u.${row.measure}`, { currency: manner.currency }),
      ];
      const figure = (value: number): number => inUnit(manner, row.measure, value);
      const past = row.past === null ? '' : figure(row.past);
      return [
        ...sides.map((side) => {
          const { low, mid, high } = row[side];
          return [...name, t(`whatIf.${side}`), figure(low), figure(mid), figure(high)];
        }),
        [...name, t('whatIf.past'), '', past, ''],
      ];
    }),
  };
}
