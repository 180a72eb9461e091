import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { film, range } from '#core/shared/text/format.ts';
import { foundText } from '#core/shared/text/found.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import {
  FELT,
  type Felt,
  type FilmView,
  type PanelInspectionView,
  type VisitFilmView,
} from '#core/shared/views/paint.ts';
import { type PanelId, SUBSTRATES, type Substrate } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

/** The mean of a panel with its interval, and what every limit rests on. */
export function FilmHead(props: {
  readonly panel: PanelInspectionView;
  readonly thinTenthUm: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const f = props.panel.film;
  if (!props.panel.readable) return null;
  if (!f) return <p className="quiet">{t('paint.noReadings')}</p>;
  const said = (tenth: number): string => film(manner, tenth).value;
  return (
    <div className={css['filmHead']}>
      <Figure amount={film(manner, f.meanTenthUm)} size={4} strong lit={f.thin} />
      <span className={css['filmFacts']}>
        <span>{t('paint.readings', { n: f.n })}</span>
        <span className="num">
          {f.interval
            ? t('paint.interval', { low: said(f.interval.lowTenthUm), high: said(f.interval.highTenthUm) })
            : t('paint.fewReadings')}
        </span>
        {f.n > 1 ? (
          <span className="num dusty">
            {t('paint.spread', { range: range(said(f.minTenthUm), said(f.maxTenthUm)), s: said(f.sTenthUm) })}
          </span>
        ) : null}
      </span>
      {f.floorTenthUm === null ? null : (
        <p className="t1 quiet">{t('paint.lowest', { value: amountText(film(manner, f.floorTenthUm)) })}</p>
      )}
      {f.thin ? (
        <p className="lit lamp">
          {t('paint.thinRule', { value: amountText(film(manner, props.thinTenthUm)) })}
        </p>
      ) : null}
      {f.refinished ? <p className="lit">{t('paint.refinished')}</p> : null}
    </div>
  );
}

/** What the panel is made of and how it feels through a bag. */
export function PanelMakeup(props: {
  readonly jobId: JobId;
  readonly panel: PanelInspectionView;
}): ReactNode {
  const t = useText();
  const felt = useCommand('paint.feltContamination');
  const made = useCommand('paint.setSubstrate');
  const { jobId, panel } = props;
  return (
    <div className={css['makeup']}>
      <Select<Felt>
        label={t('paint.felt')}
        options={FELT.map((value) => ({ value, label: t(`word.felt.${value}`) }))}
        value={panel.felt}
        onChange={(value) => void felt.run({ jobId, panel: panel.panel, felt: value })}
      />
      <Select<Substrate>
        label={t('paint.substrate')}
        options={SUBSTRATES.map((value) => ({ value, label: t(`word.substrate.${value}`) }))}
        value={panel.substrate}
        onChange={(value) => void made.run({ jobId, panel: panel.panel, substrate: value })}
      />
      <Refusal refusal={felt.refusal ?? made.refusal} />
    </div>
  );
}

/** What the same panel read at earlier visits, before and after their work. */
export function EarlierFilm(props: {
  readonly visits: readonly VisitFilmView[];
  readonly panel: PanelInspectionView;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const said = (f: FilmView | null): string => (f ? amountText(film(manner, f.meanTenthUm)) : '–');
  return props.visits.map((visit) => {
    const then = visit.panels.find((p) => p.panel === props.panel.panel);
    if (!then || (!then.before && !then.after)) return null;
    return (
      <p key={visit.jobId} className="t1 quiet num">
        {t('paint.earlierVisit', {
          number: visit.jobNumber,
          when: when(manner, visit.atMs, Date.now()),
          before: said(then.before),
          after: said(then.after),
        })}
      </p>
    );
  });
}

/** What was found on the same panel at earlier visits, how bad and how deep. */
export function EarlierFound(props: {
  readonly visits: readonly VisitFilmView[];
  readonly panel: PanelId;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  return props.visits.map((visit) => {
    const found = visit.found.filter((f) => f.panel === props.panel);
    if (found.length === 0) return null;
    return (
      <p key={visit.jobId} className="t1 quiet">
        {t('paint.earlierFound', {
          number: visit.jobNumber,
          when: when(manner, visit.atMs, Date.now()),
          found: found.map((f) => foundText(manner, f)).join('; '),
        })}
      </p>
    );
  });
}
