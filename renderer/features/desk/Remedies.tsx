import type { ReactNode } from 'react';
import { percent } from '#core/shared/text/format.ts';
import { when } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { PromiseAtRisk, Remedy } from '#core/shared/views/desk.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import css from './desk.module.css';

/** Ways out that were tried on the board, each with its chance; pressing one does it, or leads to where it is agreed. */
export function Remedies(props: { readonly risk: PromiseAtRisk; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const move = useCommand('bays.move');
  const { risk, nowMs } = props;
  if (risk.remedies.length === 0) return null;
  const at = (min: number): string => when(manner, min * 60_000, nowMs);
  function words(r: Remedy): string {
    if (r.kind === 'technician' || r.kind === 'time') {
      const moved = { stage: t(`word.stage.${r.stage}`), when: at(r.move.startMin) };
      return r.kind === 'technician'
        ? t('desk.remedy.technician', { ...moved, name: r.name })
        : t('desk.remedy.time', { ...moved, bay: r.bay });
    }
    if (r.kind === 'wash') return t('desk.remedy.wash', { item: r.item });
    return t('desk.remedy.later', { when: at(r.pickUpMin) });
  }
  function take(r: Remedy): void {
    if (r.kind === 'later') go(`/jobs/${risk.jobId}`);
    else if (r.kind === 'wash') go('/stock');
    else void move.run({ ...r.move, stageIds: [...r.move.stageIds], consent: false });
  }
  return (
    <section className={css['ways']} aria-label={`${t('desk.remedies')}, ${risk.customer}`}>
      {risk.remedies.map((r) => (
        <button
          key={r.kind}
          type="button"
          className={css['way']}
          disabled={move.busy}
          onClick={() => take(r)}
        >
          <span className="cut">{words(r)}</span>
          <Figure amount={percent(manner, r.ppm / PPM)} label={t('desk.chance')} />
        </button>
      ))}
      <Refusal refusal={move.refusal} />
    </section>
  );
}
