import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, hoursRange, money, percent } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { Minor } from '#core/shared/units.ts';
import type { Ceiling, EstimateView, RestView, StairStepView } from '#core/shared/views/estimate.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';

/** What the stair is asked for. */
export type Ask = {
  readonly measure: Ceiling['kind'];
  readonly ceiling: number | null;
  readonly alike: boolean;
};

/** Makes the choice the newest version; where it is that already, says so. */
export function Take(props: {
  readonly step: StairStepView | undefined;
  readonly jobId: JobId;
  readonly newest: EstimateView;
}): ReactNode {
  const t = useText();
  const choose = useCommand('estimate.choose');
  const { step, jobId, newest } = props;
  if (!step) return null;
  if (isTaken(step, newest))
    return <p className="quiet">{t('estimate.isTaken', { version: newest.version })}</p>;
  return (
    <>
      <Beaten step={step} newest={newest} />
      <Button onPress={() => void choose.run({ jobId, levels: [...step.levels] })} busy={choose.busy}>
        {t('estimate.take')}
      </Button>
      <Refusal refusal={choose.refusal} />
    </>
  );
}

/** Why the plan as kept is not on the stair: this choice takes out as much or more and costs less. */
function Beaten(props: { readonly step: StairStepView; readonly newest: EstimateView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { step, newest } = props;
  const saved = newest.price.totalMinor - step.totalMinor;
  const more = step.gainPpm - newest.gainPpm;
  if (saved <= 0 || more < 0) return null;
  const values = { version: newest.version, money: money(manner, saved as Minor) };
  return (
    <p className="t1 quiet">
      {more < HALF_PER_CENT
        ? t('estimate.cheaper', values)
        : t('estimate.beaten', { ...values, percent: percent(manner, more / 1_000_000).value })}
    </p>
  );
}

/** True when the newest version plans every panel so. */
function isTaken(step: StairStepView, newest: EstimateView): boolean {
  const planned = new Map(newest.panels.map((p) => [p.panel, p.level]));
  return step.levels.every((l) => planned.get(l.panel) === l.level);
}

/** What one choice costs and takes out, why the rest stays, and what the next step of the stair would bring. */
export function StepWords(props: {
  readonly step: StairStepView | undefined;
  readonly next: StairStepView | undefined;
  readonly ask: Ask;
  readonly body: BodyStyle;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { step, next, ask } = props;
  if (!step) return <p className="lamp">{t('estimate.overCeiling')}</p>;
  const share = (ppm: number): string => percent(manner, ppm / 1_000_000).value;
  return (
    <>
      <p className={`num ${css['stairCost']}`}>
        <span>
          <span className="t4">{hours(manner, step.p50Min).value}</span>
          <span className="unit">h</span>
          <span className="range">{hoursRange(manner, step.p20Min, step.p80Min)}</span>
        </span>
        <span>{money(manner, step.totalMinor)}</span>
      </p>
      <p>
        <b>{t('estimate.gain', { percent: share(step.gainPpm) })}</b>
      </p>
      <Rest rest={step.rest} choice={next ? (ask.ceiling === null ? 'further' : 'ceiling') : 'alike'} />
      {next && next.gainPpm - step.gainPpm >= HALF_PER_CENT ? (
        <p className="t1 quiet">
          {t('estimate.nextBest', {
            panels: next.added.map((a) => panelName(manner.locale, a.panel, props.body)).join(', '),
            hours: hours(manner, Math.max(0, next.p50Min - step.p50Min)).value,
            percent: share(next.gainPpm - step.gainPpm),
          })}
        </p>
      ) : null}
    </>
  );
}

/** What of the gain is not promised, and why the rest stays, share by share: the choice, the film, the depth. */
function Rest(props: {
  readonly rest: RestView;
  readonly choice: 'ceiling' | 'further' | 'alike';
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { choicePpm, filmPpm, depthPpm, unknownPpm } = props.rest;
  const parts = [
    { why: 'unknown', ppm: unknownPpm },
    { why: props.choice, ppm: choicePpm },
    { why: 'film', ppm: filmPpm },
    { why: 'depth', ppm: depthPpm },
  ] as const;
  const said = parts.filter((part) => part.ppm >= HALF_PER_CENT);
  if (said.length === 0) return null;
  return (
    <ul className={css['rest']} aria-label={t('estimate.rest')}>
      {said.map(({ why, ppm }) => (
        <li key={why}>
          <span className="num">{percent(manner, ppm / 1_000_000).value} %</span>
          <span>{t(`estimate.rest.${why}`)}</span>
        </li>
      ))}
    </ul>
  );
}

/** What is less is written as 0 %. */
const HALF_PER_CENT = 5_000;
