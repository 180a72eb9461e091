import { type ReactNode, useState } from 'react';
import { type Form, Interval, Key, PartBar } from '../../ui/charts/Bars.tsx';
import { ChartBox } from '../../ui/charts/ChartBox.tsx';
import { Curve } from '../../ui/charts/Curve.tsx';
import { RunOut } from '../../ui/charts/RunOut.tsx';
import { Stairs } from '../../ui/charts/Stairs.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { timeScale } from '../../ui/time/scale.ts';
import { Block, DayRail, Flag, NowLine, TimeLines } from '../../ui/time/Time.tsx';
import css from './Kit.module.css';

const FORMS: readonly { readonly form: Form; readonly label: string }[] = [
  { form: 'done', label: 'done' },
  { form: 'work', label: 'in work' },
  { form: 'plan', label: 'planned' },
  { form: 'cure', label: 'curing, nobody' },
  { form: 'offer', label: 'offered' },
  { form: 'late', label: 'late' },
  { form: 'waits', label: 'waiting on people' },
  { form: 'away', label: 'away, closed' },
  { form: 'ghost', label: 'lifted from here' },
  { form: 'hatch', label: 'one step' },
  { form: 'cross', label: 'refinished' },
  { form: 'lit', label: 'needs you' },
];
const STEPS = [
  { x: 150, y: 0.12, label: 'bonnet' },
  { x: 210, y: 0.28, label: 'roof' },
  { x: 270, y: 0.4, label: 'left doors' },
  { x: 330, y: 0.52, label: 'right doors' },
  { x: 400, y: 0.62, label: 'front wings' },
  { x: 480, y: 0.74, label: 'bonnet twice' },
  { x: 570, y: 0.87, label: 'doors twice' },
  { x: 690, y: 0.93, label: 'bumpers' },
  { x: 790, y: 0.97, label: 'sills' },
];
const SCALE = timeScale({
  from: 0,
  to: 2880,
  open: [
    { from: 480, to: 1080 },
    { from: 1920, to: 2520 },
  ],
  closedAs: 96,
});
const TICKS = [480, 720, 960, 1920, 2160, 2400].map((at) => ({
  at,
  label: String((at % 1440) / 60).padStart(2, '0'),
}));

/** Stretches of time, curves, stairs and bars. */
export function TimeSheet(): ReactNode {
  return (
    <>
      <Forms />
      <Curves />
      <Times />
      <Stair />
    </>
  );
}

function Forms(): ReactNode {
  return (
    <Stack gap={2}>
      <Head title="Forms" note="each differs in form, not only in hue" />
      <div className={css['swatches']}>
        {FORMS.map((f) => (
          <div key={f.form} className={css['swatch']}>
            <i data-form={f.form} />
            <span>{f.label}</span>
          </div>
        ))}
      </div>
      <Key entries={FORMS.slice(0, 4)} />
    </Stack>
  );
}

function Curves(): ReactNode {
  return (
    <Stack gap={2}>
      <Head title="Curve and run-out" note="hatched is the risk" />
      <Curve label="31 %" quantiles={{ p50: 1130, p80: 1200, p95: 1290 }} promise={1050} lit />
      <Curve label="84 %" quantiles={{ p50: 860, p80: 970, p95: 1070 }} promise={990} />
      <RunOut
        label="runs out"
        from={0}
        to={42}
        points={[0, 6, 12, 18, 24, 30].map((at) => ({ at, level: 24 - at, low: 22 - at, high: 25.5 - at }))}
        reorder={8}
        outAt={24}
        arrivals={[9]}
      />
      <Interval label="95 %" low={99.8} mid={105.8} high={111.8} from={85} to={135} />
      <PartBar
        label="a bay’s hours"
        parts={[
          { form: 'done', value: 40, label: 'attended' },
          { form: 'cure', value: 8, label: 'cure' },
          { form: 'waits', value: 4, label: 'waiting' },
          { form: 'plan', value: 10, label: 'idle' },
          { form: 'away', value: 3, label: 'closed' },
        ]}
      />
    </Stack>
  );
}

function Times(): ReactNode {
  return (
    <Stack gap={2}>
      <Head title="Time" note="closed hours pressed together" />
      <DayRail scale={SCALE} ticks={TICKS} />
      <div className={css['board']}>
        <TimeLines scale={SCALE} ticks={TICKS} />
        <Block scale={SCALE} from={480} to={620} form="done" top={8} height={30}>
          wash
        </Block>
        <Block scale={SCALE} from={620} to={760} form="work" top={8} height={30}>
          cut
        </Block>
        <Block scale={SCALE} from={760} to={1000} form="plan" top={8} height={30}>
          refine
        </Block>
        <Block scale={SCALE} from={1920} to={2200} form="offer" top={52} height={30}>
          A
        </Block>
        <Flag scale={SCALE} at={1040} label="17:30 · 31 %" lit />
        <Flag scale={SCALE} at={2300} label="94 %" />
        <NowLine scale={SCALE} at={760} label="12:40" />
      </div>
    </Stack>
  );
}

function Stair(): ReactNode {
  const [ceiling, setCeiling] = useState(570);
  return (
    <div className={css['wide']}>
      <ChartBox
        title="Stair"
        note="the tape snaps to exact optima"
        fileName="stair"
        table={{ columns: ['step', 'minutes', 'share'], rows: STEPS.map((s) => [s.label, s.x, s.y]) }}
      >
        <div className={css['stairs']}>
          <Stairs
            label="ceiling"
            steps={STEPS}
            from={120}
            to={840}
            value={ceiling}
            onChange={setCeiling}
            said={`${ceiling / 60} h`}
            ticks={[2, 4, 6, 8, 10, 12, 14].map((h) => ({
              at: h * 60,
              label: h === 2 ? '2 h' : String(h),
            }))}
          />
        </div>
      </ChartBox>
    </div>
  );
}
