import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import type { JobPlanView, ReplanJob } from '#core/shared/views/plan.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Check } from '../../ui/Choice.tsx';
import { Wipe } from '../../ui/TapeLine.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import css from './panel.module.css';
import { scaleOfMoves } from './scaleOfMoves.ts';

/** Height of a line, px; a row has room for what is said of a job, and for one line more beside what is ticked. */
const LINE = 18;
const heightOf = (job: ReplanJob): number => LINE * (job.needsConsent && job.bold ? 3 : 2) + 6;

/** Jobs that something was said of, and how it is said. */
export type Marked = { readonly jobs: readonly JobId[]; readonly set: (jobs: readonly JobId[]) => void };

/** The jobs that move: as they are left of the tape, as proposed right of it, and what becomes of each promise. */
export function ReplanRows(props: {
  readonly moved: readonly ReplanJob[];
  readonly agreed: Marked;
  readonly bold: Marked;
}): ReactNode {
  const t = useText();
  // Those who have to be asked come first, then those that have to be chosen.
  const rank = (m: ReplanJob): number => (m.needsConsent ? 0 : m.bold ? 1 : 2);
  const moved = props.moved.toSorted((a, b) => rank(a) - rank(b));
  const bands = bandsOf(moved);
  const scale = scaleOfMoves(moved);
  return (
    <div className={css['moved']}>
      <ul>
        {moved.map((m) => (
          <li key={m.jobId} title={m.who} data-lit={m.needsConsent || m.bold} style={{ height: heightOf(m) }}>
            {m.who}
          </li>
        ))}
      </ul>
      <div>
        <Wipe
          label={t('bays.replan.tape')}
          left={<Plans plans={moved.map((m) => m.before)} bands={bands} scale={scale} done />}
          right={<Plans plans={moved.map((m) => m.after)} bands={bands} scale={scale} done={false} />}
        />
      </div>
      <ul className="num">
        {moved.map((m) => (
          <li key={m.jobId} className={css['movedSaid']} style={{ height: heightOf(m) }}>
            <Change job={m} />
            {m.needsConsent ? (
              <Mark job={m} label={t('bays.replan.agrees', { to: asksTo(m) })} marked={props.agreed} />
            ) : null}
            {m.bold ? (
              <Mark
                job={m}
                label={t('bays.replan.bold', { percent: percentOf(m.afterPpm) })}
                marked={props.bold}
              />
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Mark(props: {
  readonly job: ReplanJob;
  readonly label: string;
  readonly marked: Marked;
}): ReactNode {
  const { jobId } = props.job;
  const { jobs, set } = props.marked;
  return (
    <Check
      label={props.label}
      value={jobs.includes(jobId)}
      onChange={(on) => set(on ? [...jobs, jobId] : jobs.filter((id) => id !== jobId))}
    />
  );
}

/** What somebody has to agree to: a later promise, another drop-off, or both. */
function asksTo(job: ReplanJob): 'promise' | 'dropOff' | 'both' {
  const moves = job.before.stays[0]?.arriveMin !== job.after.stays[0]?.arriveMin;
  if (job.newPromiseMin === null) return 'dropOff';
  return moves ? 'both' : 'promise';
}

function percentOf(ppm: number | null): number {
  return Math.round((ppm ?? 0) / 10_000);
}

/** What becomes of the promise and how sure that was and is, when the car comes, and when it is ready. */
function Change(props: { readonly job: ReplanJob }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  const at = (min: number | null | undefined): string =>
    min === null || min === undefined ? '–' : dayTimeFrom(manner, min * 60_000, Date.now());
  const sure = (ppm: number | null): string => (ppm === null ? '–' : `${percentOf(ppm)}\u00a0%`);
  const [came, comes] = [job.before.stays[0]?.arriveMin, job.after.stays[0]?.arriveMin];
  const ready = t('bays.replan.change', { before: at(job.readyBeforeMin), after: at(job.readyAfterMin) });
  const moves = came === comes ? '' : t('bays.replan.comes', { before: at(came), after: at(comes) });
  const chance =
    job.promiseMin === null
      ? ''
      : t('bays.replan.chance', { was: sure(job.beforePpm), is: sure(job.afterPpm) });
  const all = [promiseText(t, job, at), chance, moves, ready].filter(Boolean).join(', ');
  return <span title={all}>{all}</span>;
}

type Band = { readonly top: number; readonly height: number };

/** Where each row begins on the tape, and how high it is. */
function bandsOf(jobs: readonly ReplanJob[]): readonly Band[] {
  const heights = jobs.map(heightOf);
  return heights.map((height, i) => ({ height, top: heights.slice(0, i).reduce((a, b) => a + b, 0) }));
}

function promiseText(t: Say, job: ReplanJob, at: (min: number) => string): string {
  const { promiseMin, newPromiseMin } = job;
  if (promiseMin === null) return '';
  if (newPromiseMin === null) return t('bays.replan.promised', { at: at(promiseMin) });
  return t('bays.replan.promisedAnew', { before: at(promiseMin), after: at(newPromiseMin) });
}

/** One row a job; what is now is drawn full, what is proposed in outline. */
function Plans(props: {
  readonly plans: readonly JobPlanView[];
  readonly bands: readonly Band[];
  readonly scale: TimeScale;
  readonly done: boolean;
}): ReactNode {
  return props.plans.map((plan, row) =>
    plan.pieces.map((p) => (
      <Block
        key={`${p.stageId}/${p.startMin}`}
        scale={props.scale}
        from={p.startMin}
        to={p.dwellEndMin}
        form={props.done ? 'done' : 'plan'}
        top={(props.bands[row]?.top ?? 0) + 6}
        height={LINE}
      />
    )),
  );
}
