import type { ReactNode } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { hours, money, percent } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { StairStepView, StairView } from '#core/shared/views/estimate.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { TapeLine } from '../../ui/TapeLine.tsx';
import css from './estimate.module.css';

type Props = {
  readonly stair: StairView;
  readonly measure: 'hours' | 'money';
  readonly at: number;
  readonly onAt: (at: number) => void;
  readonly body: BodyStyle;
};

const WIDTH = 1000;
const HIGH = 100;

/** Gain against hours or money: solid up to the tape, dashed beyond it. Every step is an exact optimum at its cost. */
export function Stair(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const { steps } = props.stair;
  const cost = (s: StairStepView): number => (props.measure === 'money' ? s.totalMinor : s.p50Min);
  const low = Math.min(...steps.map(cost));
  const high = Math.max(...steps.map(cost), low + 1);
  const pad = (high - low) * 0.06;
  const x = (value: number): number => (value - low + pad) / (high - low + 2 * pad);
  const top = Math.max(1, ...steps.map((s) => s.gainPpm));
  const y = (ppm: number): number => HIGH - (ppm / top) * (HIGH - 8);
  const places = steps.map((s) => x(cost(s)));
  const now = steps[props.at] ?? steps[0];
  if (!now) return null;
  const line = (from: number, to: number): string =>
    steps
      .slice(from, to + 1)
      .map((s, i) => {
        const px = x(cost(s)) * WIDTH;
        return i === 0 ? `M${px} ${y(s.gainPpm)}` : `H${px}V${y(s.gainPpm)}`;
      })
      .join('');
  const here = x(cost(now)) * WIDTH;
  const solid = line(0, props.at);
  const said = (s: StairStepView): string =>
    t('estimate.stairSaid', {
      hours: hours(manner, s.p50Min).value,
      percent: percent(manner, s.gainPpm / 1_000_000).value,
    });
  return (
    <div className={css['plot']}>
      <div className={css['drawn']}>
        <svg viewBox={`0 0 ${WIDTH} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
          <path className={css['under']} d={`${solid}H${here}V${HIGH}H${(places[0] ?? 0) * WIDTH}Z`} />
          <path className={css['solid']} d={solid} />
          <path className={css['dashed']} d={line(props.at, steps.length - 1)} />
        </svg>
        <div className={css['names']} aria-hidden="true">
          {namesOf(steps, places, (panel) => panelName(manner.locale, panel, props.body))
            .filter((n) => isClear(n.at, x(cost(now))))
            .map((n) => (
              <span key={n.at} style={{ left: `${n.at * 100}%` }}>
                {n.text}
              </span>
            ))}
        </div>
        <TapeLine
          label={t('estimate.stairLabel')}
          value={x(cost(now))}
          snap={places}
          said={said(now)}
          onChange={(value) => props.onAt(nearestIndex(places, value))}
        />
      </div>
      <Ticks low={low} high={high} measure={props.measure} x={x} />
    </div>
  );
}

/** Five costs below the stair, whole units of money. */
function Ticks(props: {
  readonly low: number;
  readonly high: number;
  readonly measure: Props['measure'];
  readonly x: (value: number) => number;
}): ReactNode {
  const manner = useManner();
  const whole = 10 ** currencyDigits(manner.currency);
  const ticks = [0, 0.25, 0.5, 0.75, 1].map((share) => props.low + share * (props.high - props.low));
  return (
    <div className={css['ticks']} aria-hidden="true">
      {ticks.map((value) => (
        <span key={value} className="num" style={{ left: withinEdges(props.x(value)) }}>
          {props.measure === 'money'
            ? money(manner, Math.round(value / whole) * whole)
            : hours(manner, value).value}
        </span>
      ))}
    </div>
  );
}

/** True of a name that the tape does not lie across. */
function isClear(name: number, tape: number): boolean {
  return tape <= name || tape - name > 1 / 5;
}

/** Half a cost is as wide as this: the first and the last stay within the plot. */
function withinEdges(at: number): string {
  return `clamp(32px, ${at * 100}%, calc(100% - 32px))`;
}

function nearestIndex(places: readonly number[], value: number): number {
  let best = 0;
  places.forEach((place, i) => {
    if (Math.abs(place - value) < Math.abs((places[best] ?? 0) - value)) best = i;
  });
  return best;
}

/** Names of steps that have room for one: a fifth of the width to the next name, or to the end. */
function namesOf(
  steps: readonly StairStepView[],
  places: readonly number[],
  nameOf: (panel: StairStepView['added'][number]['panel']) => string,
): readonly { readonly at: number; readonly text: string }[] {
  const found: { at: number; text: string }[] = [];
  steps.forEach((step, i) => {
    const at = places[i] ?? 0;
    const first = step.added[0];
    if (!first || at > 4 / 5 || at - (found.at(-1)?.at ?? -1) < 1 / 5) return;
    found.push({ at, text: nameOf(first.panel) });
  });
  return found;
}
