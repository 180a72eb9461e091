import { type ReactNode, useEffect, useState } from 'react';
import { amountOf, count, hours, hoursRange } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { CardCaution, CardStage } from '#core/shared/views/card.ts';
import type { Material } from '#core/shared/vocabulary.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { useReach } from '../../ui/reach.ts';
import { Caution } from '../../ui/States.tsx';
import css from './card.module.css';
import { Sheets } from './Sheets.tsx';

/** `1:24:06`. */
function clockText(ms: number): string {
  const s = Math.floor(ms / 1000);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
}

/** Labour so far, counted from what is recorded: a sleeping tablet loses nothing. */
function useWorked(stage: CardStage, nowMs: number): number {
  const [asked] = useState(() => Date.now());
  const [now, setNow] = useState(() => Date.now());
  const runs = stage.state === 'inWork' && (stage.crew === 0 || stage.work.some((w) => w.endMs === null));
  useEffect(() => {
    if (!runs) return undefined;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [runs]);
  const atCore = nowMs + Math.max(0, now - asked);
  if (stage.crew === 0) return stage.startedMs === null ? 0 : (stage.doneMs ?? atCore) - stage.startedMs;
  return stage.work.reduce((sum, w) => sum + Math.max(0, (w.endMs ?? atCore) - w.startMs), 0);
}

/** What holds for most stages, said in one line after what is this stage's own danger. */
const EVERYWHERE: readonly CardCaution[] = [
  'dataSheets',
  'protection',
  'ventilation',
  'towels',
  'wasteWater',
];

/** The timer, how the stage is done, and what to take care of. */
export function StageFacts(props: { readonly stage: CardStage; readonly nowMs: number }): ReactNode {
  const t = useText();
  const { stage } = props;
  const reach = useReach<HTMLElement>();
  return (
    <section ref={reach} aria-label={t(`word.stage.${stage.kind}`)}>
      <Timer stage={stage} nowMs={props.nowMs} />
      <Cautions of={stage.how.cautions} />
      <Sheets of={stage.sheets} />
      <HowTo stage={stage} />
      {stage.notes.map((n) => (
        <p key={`${n.atMs}${n.text}`} className="quiet">
          {n.by}: {n.text}
        </p>
      ))}
    </section>
  );
}

/** Before how the stage is done, where nothing pushes them out of view. */
function Cautions(props: { readonly of: readonly CardCaution[] }): ReactNode {
  const t = useText();
  const own = props.of.filter((caution) => !EVERYWHERE.includes(caution));
  const usual = EVERYWHERE.filter((caution) => props.of.includes(caution));
  return (
    <>
      {own.map((caution) => (
        <Caution key={caution}>{t(`card.caution.${caution}`)}</Caution>
      ))}
      {usual.length > 0 ? (
        <Caution>{usual.map((caution) => t(`card.caution.${caution}`)).join(' ')}</Caution>
      ) : null}
    </>
  );
}

/** Labour so far against the plan; the bar is full at the end of its range. */
function Timer(props: { readonly stage: CardStage; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { stage } = props;
  const worked = useWorked(stage, props.nowMs);
  const planMin = stage.crew === 0 ? stage.dwellMin : stage.p50Min;
  const fullMs = Math.max(1, stage.crew === 0 ? planMin : stage.p80Min) * 60_000;
  const over = stage.crew > 0 && worked > stage.p80Min * 60_000;
  const range = stage.crew === 0 ? '' : hoursRange(manner, stage.p20Min, stage.p80Min);
  return (
    <>
      <div className={css['timer']}>
        <span className={css['clock']} role="timer">
          {clockText(worked)}
        </span>
        <span className={over ? 'lamp' : 'quiet'}>
          {stage.crew === 0
            ? t('card.ofDwell', { hours: hours(manner, planMin).value })
            : t('card.of', { hours: hours(manner, planMin).value, range })}
        </span>
      </div>
      <div className={css['bar']} data-over={over}>
        <i style={{ width: `${Math.min(100, (100 * worked) / fullMs)}%` }} />
      </div>
    </>
  );
}

/** Machine, pad, liquid, speeds and sections, as the shop has set its steps. */
function HowTo(props: { readonly stage: CardStage }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <div className={css['set']}>
      {factsOf(props.stage, t, manner).map(({ label, value, more }) => (
        <div key={`${label}${value}`}>
          {label ? (
            <span className={css['fact']}>
              <span>{label}</span>
              <span className="num">{more}</span>
            </span>
          ) : null}
          <strong>{value}</strong>
        </div>
      ))}
    </div>
  );
}

type Fact = { readonly label: string; readonly value: string; readonly more: string };

function factsOf(stage: CardStage, t: Say, manner: Manner): readonly Fact[] {
  const { machine, pad, liquid, spread, rpm, padMm, section } = stage.how;
  const amount = (material: Material): string => {
    const planned = stage.materials.find((m) => m.material === material);
    return planned ? amountText(amountOf(manner, planned.unit, planned.planned)) : '';
  };
  const material = (label: string, one: Material | null, more = ''): Fact[] =>
    one ? [{ label, value: t(`word.material.${one}`), more: more || amount(one) }] : [];
  const each = amountText(hours(manner, stage.p50Min / 2));
  const pair: Fact[] =
    stage.crew === 2
      ? [
          {
            label: t('estimate.hands'),
            value: t('estimate.people', { n: 2 }),
            more: t('estimate.each', { hours: each }),
          },
        ]
      : [];
  const bare = (value: string): Fact => ({ label: '', value, more: '' });
  return [
    ...(stage.crew === 0
      ? []
      : [{ label: t('card.how.machine'), value: t(`card.machine.${machine}`), more: '' }]),
    ...pair,
    ...material(t('card.how.pad'), pad, padMm === null ? '' : t('card.padMm', { mm: padMm })),
    ...material(t('card.how.liquid'), liquid),
    ...(spread === 'none' ? [] : [bare(t(`card.spread.${spread}`))]),
    ...(rpm === null ? [] : [bare(t('card.rpm', { machine, rpm: count(manner, rpm) }))]),
    ...(section === null
      ? []
      : [
          bare(
            t('card.section', { along: section.alongMm, across: section.acrossMm, speed: section.armMmS }),
          ),
        ]),
  ];
}
