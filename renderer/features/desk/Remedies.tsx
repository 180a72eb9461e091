import type { ReactNode } from 'react';
import { percent } from '#core/shared/text/format.ts';
import { PPM } from '#core/shared/units.ts';
import type { PromiseAtRisk, Remedy } from '#core/shared/views/desk.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { remedyWords, takeRemedy } from '../../ui/remedies.ts';
import { Refusal } from '../../ui/States.tsx';
import css from './desk.module.css';

/** Ways out that were tried on the board, each with its chance; pressing one does it, or leads to where it is agreed. */
export function Remedies(props: { readonly risk: PromiseAtRisk; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const move = useCommand('bays.move');
  const { risk, nowMs } = props;
  if (risk.remedies.length === 0) return null;
  const take = (r: Remedy): void =>
    takeRemedy(
      risk.jobId,
      r,
      (way) => void move.run({ ...way, stageIds: [...way.stageIds], consent: false }),
    );
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
          <span className="cut">{remedyWords(t, manner, r, nowMs)}</span>
          <Figure amount={percent(manner, r.ppm / PPM)} label={t('desk.chance')} />
        </button>
      ))}
      <Refusal refusal={move.refusal} />
    </section>
  );
}
