import type { ReactNode } from 'react';
import { dayTime } from '#core/shared/text/when.ts';
import type { JobPlanView, ReplanJob } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Wipe } from '../../ui/TapeLine.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import css from './bays.module.css';

const ROW = 22;

/** The jobs that move: as they are left of the tape, as proposed right of it, and what becomes of each promise. */
export function ReplanRows(props: {
  readonly moved: readonly ReplanJob[];
  readonly scale: TimeScale;
}): ReactNode {
  const { moved, scale } = props;
  const t = useText();
  const manner = useManner();
  const at = (min: number | null): string => (min === null ? '–' : dayTime(manner, min * 60_000));
  const sure = (ppm: number | null): string => (ppm === null ? '–' : `${Math.round(ppm / 10_000)} %`);
  return (
    <div className={css['moved']}>
      <ul style={{ lineHeight: `${ROW}px` }}>
        {moved.map((m) => (
          <li key={m.jobId} title={m.who}>
            {m.who}
          </li>
        ))}
      </ul>
      <div style={{ height: moved.length * ROW }}>
        <Wipe
          label={t('bays.replan.tape')}
          left={<Plans plans={moved.map((m) => m.before)} scale={scale} done />}
          right={<Plans plans={moved.map((m) => m.after)} scale={scale} done={false} />}
        />
      </div>
      <ul className="num" style={{ lineHeight: `${ROW}px` }}>
        {moved.map((m) => (
          <li key={m.jobId}>
            {t('bays.replan.change', {
              before: at(m.readyBeforeMin),
              after: at(m.readyAfterMin),
              was: sure(m.beforePpm),
              is: sure(m.afterPpm),
            })}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** One row a job; what is now is drawn full, what is proposed in outline. */
function Plans(props: {
  readonly plans: readonly JobPlanView[];
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
        top={row * ROW + 3}
        height={ROW - 6}
      />
    )),
  );
}
