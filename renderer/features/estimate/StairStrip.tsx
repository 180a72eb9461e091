import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { StageView } from '#core/shared/views/bookings.ts';
import type { Ceiling, EstimateView, StairView } from '#core/shared/views/estimate.ts';
import { type BodyStyle, isMachineStage } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Segmented, Switch } from '../../ui/Choice.tsx';
import { HoursField, MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';
import { Stair } from './Stair.tsx';
import { type Ask, StepWords, Take } from './StairWords.tsx';

type Measure = Ask['measure'];
type Props = { readonly jobId: JobId; readonly newest: EstimateView; readonly body: BodyStyle };

function machineDone(stages: readonly StageView[]): boolean {
  const machine = stages.filter((s) => isMachineStage(s.kind) && s.state !== 'dropped');
  return machine.length > 0 && machine.every((s) => s.state === 'done');
}

/** Best within a ceiling: the one the version was asked with, else the one the customer named on the telephone. */
export function StairStrip(props: Props): ReactNode {
  const t = useText();
  const job = useQuery('bookings.job', { jobId: props.jobId }).data;
  if (!job) return null;
  if (machineDone(job.stages)) return <p className="quiet">{t('estimate.machineDone')}</p>;
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
  const [ask, setAsk] = useState<Ask>({
    measure: props.asked?.kind ?? 'hours',
    ceiling: props.asked?.value ?? null,
    alike: false,
  });
  const [at, setAt] = useState<number | null>(null);
  const { jobId, newest, body } = props;
  const answer = useQuery('estimate.bestWithin', { jobId, ...ask }, { keep: true });
  const stair = answer.data;
  if (!stair && !answer.error) return null;
  // One step alone: the damage is taken out, or there was none that may come out.
  if (stair?.steps.length === 1 && ask.ceiling === null)
    return <p className="quiet">{t('estimate.nothingToChoose')}</p>;
  const place = stair ? (at ?? stair.best ?? ownStep(stair, newest)) : 0;
  const shown = at === null && stair?.choice ? stair.choice : stair?.steps[place];
  return (
    <section className={css['stair']} aria-label={t('estimate.ceiling')}>
      <div className={css['stairWords']}>
        <Refusal refusal={answer.error} />
        {stair ? (
          <>
            <StepWords step={shown} next={stair.steps[place + 1]} ask={ask} body={body} />
            <Take step={shown} jobId={jobId} newest={newest} />
          </>
        ) : null}
      </div>
      <div className={css['stairPlot']}>
        <div className={css['stairAsk']}>
          <AskFields
            ask={ask}
            onChange={(part) => {
              setAsk({ ...ask, ...part });
              setAt(null);
            }}
          />
          {stair && ask.ceiling !== null && stair.choice === null ? (
            <span className="lamp">{t('estimate.overCeiling')}</span>
          ) : null}
          {stair ? <Above stair={stair} newest={newest} /> : null}
        </div>
        {stair && stair.steps.length > 1 ? (
          <Stair stair={stair} measure={ask.measure} at={place} onAt={setAt} body={body} />
        ) : null}
        {stair ? <p className="t1 quiet">{t('estimate.asKnown')}</p> : null}
      </div>
    </section>
  );
}

/** What is asked of the stair; it stays where an answer fails, so that another can be asked. */
function AskFields(props: { readonly ask: Ask; readonly onChange: (part: Partial<Ask>) => void }): ReactNode {
  const t = useText();
  const { ask, onChange } = props;
  return (
    <>
      <Segmented<Measure>
        bare
        label={t('estimate.ceiling')}
        options={[
          { value: 'hours', label: t('estimate.ceilingHours') },
          { value: 'money', label: t('estimate.ceilingMoney') },
        ]}
        value={ask.measure}
        onChange={(measure) => onChange({ measure, ceiling: null })}
      />
      <CeilingField measure={ask.measure} value={ask.ceiling} onChange={(ceiling) => onChange({ ceiling })} />
      <Switch label={t('estimate.alike')} value={ask.alike} onChange={(alike) => onChange({ alike })} />
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
  const shared = {
    label: t('estimate.ceiling'),
    value: props.value,
    onChange: props.onChange,
    min: 0,
    saves: true,
  };
  return props.measure === 'hours' ? <HoursField {...shared} /> : <MoneyField {...shared} />;
}
