import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, hoursRange, money, percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { Ceiling, EstimateView, StairStepView, StairView } from '#core/shared/views/estimate.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented, Switch } from '../../ui/Choice.tsx';
import { HoursField, MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';
import { Stair } from './Stair.tsx';

type Measure = 'hours' | 'money';
type Props = { readonly jobId: JobId; readonly newest: EstimateView; readonly body: BodyStyle };

/** Best within a ceiling: the one the version was asked with, else the one the customer named on the telephone. */
export function StairStrip(props: Props): ReactNode {
  const job = useQuery('bookings.job', { jobId: props.jobId }).data;
  if (!job) return null;
  const { ceilingMinor, ceilingMin } = job;
  const named: Ceiling | null =
    ceilingMinor !== null
      ? { kind: 'money', value: ceilingMinor }
      : ceilingMin !== null
        ? { kind: 'hours', value: ceilingMin }
        : null;
  return <Strip {...props} asked={props.newest.asked.ceiling ?? named} />;
}

/** The stair of exact choices with the tape on it, and what the next step would bring. */
function Strip(props: Props & { readonly asked: Ceiling | null }): ReactNode {
  const t = useText();
  const [measure, setMeasure] = useState<Measure>(props.asked?.kind ?? 'hours');
  const [ceiling, setCeiling] = useState<number | null>(props.asked?.value ?? null);
  const [alike, setAlike] = useState(false);
  const [at, setAt] = useState<number | null>(null);
  const { jobId } = props;
  const stair = useQuery('estimate.bestWithin', { jobId, measure, ceiling, alike }, { keep: true });
  if (stair.error) return <Refusal refusal={stair.error} />;
  if (!stair.data) return null;
  // One step alone: the damage is taken out, or there was none that may come out.
  if (stair.data.steps.length === 1 && ceiling === null)
    return <p className="quiet">{t('estimate.nothingToChoose')}</p>;
  const place = at ?? stair.data.best ?? ownStep(stair.data, props.newest);
  const shown = at === null && stair.data.choice ? stair.data.choice : stair.data.steps[place];
  return (
    <section className={css['stair']} aria-label={t('estimate.ceiling')}>
      <div className={css['stairWords']}>
        <StepWords step={shown} next={stair.data.steps[place + 1]} body={props.body} />
        <Take step={shown} jobId={jobId} newest={props.newest} />
        <p className="t1 quiet">{t('estimate.asKnown')}</p>
      </div>
      <div className={css['stairPlot']}>
        <div className={css['stairAsk']}>
          <Segmented<Measure>
            bare
            label={t('estimate.ceiling')}
            options={[
              { value: 'hours', label: t('estimate.ceilingHours') },
              { value: 'money', label: t('estimate.ceilingMoney') },
            ]}
            value={measure}
            onChange={(m) => {
              setMeasure(m);
              setCeiling(null);
              setAt(null);
            }}
          />
          <CeilingField
            measure={measure}
            value={ceiling}
            onChange={(v) => {
              setCeiling(v);
              setAt(null);
            }}
          />
          <Switch label={t('estimate.alike')} value={alike} onChange={setAlike} />
          {ceiling !== null && stair.data.choice === null ? (
            <span className="lamp">{t('estimate.overCeiling')}</span>
          ) : null}
          <Above stair={stair.data} newest={props.newest} />
        </div>
        {stair.data.steps.length > 1 ? (
          <Stair stair={stair.data} measure={measure} at={place} onAt={setAt} body={props.body} />
        ) : null}
      </div>
    </section>
  );
}

/** Makes the choice the newest version; where it is that already, says so. */
function Take(props: {
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
      <Button onPress={() => void choose.run({ jobId, levels: [...step.levels] })} busy={choose.busy}>
        {t('estimate.take')}
      </Button>
      <Refusal refusal={choose.refusal} />
    </>
  );
}

/** That the kept version costs more than the ceiling. */
function Above(props: { readonly stair: StairView; readonly newest: EstimateView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { above, ceiling } = props.stair;
  if (above === null || ceiling === null) return null;
  const said = ceiling.kind === 'money' ? money(manner, above) : amountText(hours(manner, above));
  return (
    <span className="lamp">{t('estimate.aboveCeiling', { version: props.newest.version, above: said })}</span>
  );
}

/** True when the newest version plans every panel so. */
function isTaken(step: StairStepView, newest: EstimateView): boolean {
  const planned = new Map(newest.panels.map((p) => [p.panel, p.level]));
  return step.levels.every((l) => planned.get(l.panel) === l.level);
}

/** The last step that costs no more than the newest version. */
function ownStep(stair: StairView, newest: EstimateView): number {
  const within = stair.steps.filter((s) => s.p50Min <= newest.hours.p50Min).length;
  return Math.max(0, within - 1);
}

function CeilingField(props: {
  readonly measure: Measure;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
}): ReactNode {
  const t = useText();
  const shared = { label: t('estimate.ceiling'), value: props.value, onChange: props.onChange, min: 0 };
  return props.measure === 'hours' ? <HoursField {...shared} /> : <MoneyField {...shared} />;
}

function StepWords(props: {
  readonly step: StairStepView | undefined;
  readonly next: StairStepView | undefined;
  readonly body: BodyStyle;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { step, next } = props;
  if (!step) return <p className="lamp">{t('estimate.overCeiling')}</p>;
  const share = (ppm: number): string => percent(manner, ppm / 1_000_000).value;
  return (
    <>
      <p className="num">
        <span className="t4">{hours(manner, step.p50Min).value}</span>
        <span className="unit">h</span>
        <span className="range">{hoursRange(manner, step.p20Min, step.p80Min)}</span>
      </p>
      <p>
        <b>{t('estimate.gain', { percent: share(step.gainPpm) })}</b>
      </p>
      <p className="num">{money(manner, step.totalMinor)}</p>
      <p className="t1 quiet">
        {next
          ? t('estimate.nextBest', {
              panels: next.added.map((a) => panelName(manner.locale, a.panel, props.body)).join(', '),
              hours: hours(manner, Math.max(0, next.p50Min - step.p50Min)).value,
              percent: share(Math.max(0, next.gainPpm - step.gainPpm)),
            })
          : t('estimate.nothingMore')}
      </p>
    </>
  );
}
