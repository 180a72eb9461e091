import { type ReactNode, useEffect, useState } from 'react';
import { amountOf, count, hours, hoursRange } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { CardStage } from '#core/shared/views/bookings.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Caution } from '../../ui/States.tsx';
import css from './card.module.css';

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

/** The timer, how the stage is done, and what to take care of. */
export function StageFacts(props: { readonly stage: CardStage; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { stage } = props;
  const worked = useWorked(stage, props.nowMs);
  const planMin = stage.crew === 0 ? stage.dwellMin : stage.p50Min;
  const fullMs = Math.max(1, stage.crew === 0 ? planMin : stage.p80Min) * 60_000;
  const over = stage.crew > 0 && worked > stage.p80Min * 60_000;
  const range = stage.crew === 0 ? '' : hoursRange(manner, stage.p20Min, stage.p80Min);
  const { how } = stage;
  const amount = (material: string | null): string => {
    const planned = stage.materials.find((m) => m.material === material);
    return planned ? amountText(amountOf(manner, planned.unit, planned.planned)) : '';
  };
  const pad = how.padMm === null || how.pad === null ? '' : t('card.padMm', { mm: how.padMm });
  const facts = [
    [t('card.machine'), t(`card.machine.${how.machine}`), ''],
    ...(how.pad ? [[t('jobs.material'), t(`word.material.${how.pad}`), pad || amount(how.pad)]] : []),
    ...(how.liquid ? [[t('jobs.material'), t(`word.material.${how.liquid}`), amount(how.liquid)]] : []),
    ...(how.spread === 'none' ? [] : [['', t(`card.spread.${how.spread}`), '']]),
    ...(how.rpm === null ? [] : [['', t('card.rpm', { rpm: count(manner, how.rpm) }), '']]),
    ...(how.section === null
      ? []
      : [
          [
            '',
            t('card.section', {
              along: how.section.alongMm,
              across: how.section.acrossMm,
              speed: how.section.armMmS,
            }),
            '',
          ],
        ]),
  ];
  return (
    <section aria-label={t(`word.stage.${stage.kind}`)}>
      <div className={css['timer']}>
        <span className={css['clock']} role="timer">
          {clockText(worked)}
        </span>
        <span className={over ? 'lamp' : 'quiet'}>
          {t('card.of', { hours: hours(manner, planMin).value, range })}
        </span>
      </div>
      <div className={css['bar']} data-over={over}>
        <i style={{ width: `${Math.min(100, (100 * worked) / fullMs)}%` }} />
      </div>
      <div className={css['set']}>
        {facts.map(([label, value, more]) => (
          <div key={`${label}${value}`}>
            <span>{label}</span>
            <strong>{value}</strong> {more ? <span className="unit">{more}</span> : null}
          </div>
        ))}
      </div>
      {how.cautions.map((caution) => (
        <Caution key={caution}>{t(`card.caution.${caution}`)}</Caution>
      ))}
      {stage.notes.map((n) => (
        <p key={`${n.atMs}${n.text}`} className="quiet">
          {n.by}: {n.text}
        </p>
      ))}
    </section>
  );
}
