import { type ReactNode, useEffect } from 'react';
import { dayTime } from '#core/shared/text/when.ts';
import type { BoardView, JobPlanView, ReplanView } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useTask } from '../../bridge/tasks.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import css from './bays.module.css';
import { plainPlans } from './useMoves.ts';

/** How long to look: about a second on a full board. */
const LOOK = { iterations: 1500 } as const;

/** Looks for a better plan at once, shows what moves either side of the tape, and applies it whole or not at all. */
export function Replan(props: {
  readonly board: BoardView;
  readonly onApplied: (undo: readonly JobPlanView[]) => void;
  readonly onClose: () => void;
}): ReactNode {
  const t = useText();
  const task = useTask('bays.replan');
  const apply = useCommand('bays.applyReplan');
  const view = task.value;
  const { start } = task;
  useEffect(() => start(LOOK), [start]);
  const accept = async (): Promise<void> => {
    if (!view) return;
    const plans = plainPlans(view.moved.map((m) => m.after));
    const outcome = await apply.run({ planRevision: view.planRevision, plans, consent: [] });
    if (!outcome.ok) return;
    props.onApplied(outcome.value.undo);
    props.onClose();
  };
  return (
    <section aria-label={t('bays.replan')}>
      <CalmNote title={t('bays.replan')}>
        {task.running ? (
          <>
            <span aria-busy="true">{t('bays.replan.working')}</span>
            <LinkButton onPress={task.cancel}>{t('bays.replan.stop')}</LinkButton>
          </>
        ) : (
          <LinkButton onPress={() => start(LOOK)}>{t('bays.replan.again')}</LinkButton>
        )}
        {view && !task.running ? <Found view={view} /> : null}
        {view && view.moved.length > 0 && !task.running ? (
          <Button kind="go" busy={apply.busy} onPress={() => void accept()}>
            {t('bays.replan.apply')}
          </Button>
        ) : null}
        <LinkButton onPress={props.onClose}>{t('bays.replan.drop')}</LinkButton>
        <Refusal refusal={task.refusal ?? apply.refusal} />
      </CalmNote>
    </section>
  );
}

function Found(props: { readonly view: ReplanView }): ReactNode {
  const { view } = props;
  const t = useText();
  const manner = useManner();
  const at = (min: number | null): string => (min === null ? '' : dayTime(manner, min * 60_000));
  const sure = (ppm: number | null): string => (ppm === null ? '' : ` ${Math.round(ppm / 10_000)} %`);
  const bound = view.boundLateMin;
  if (view.moved.length === 0) return <p>{t('bays.replan.none', { bound })}</p>;
  const { before, after } = view;
  return (
    <div>
      <p>
        {t(before.behind > 0 ? 'bays.replan.behind' : 'bays.replan.found', {
          behind: before.behind,
          moved: view.moved.length,
          before: before.lateMin,
          after: after.lateMin,
          bound,
        })}{' '}
        {view.proved ? t('bays.replan.proved') : null}
      </p>
      <table className={css['replan']}>
        <thead>
          <tr>
            <th />
            <th>{t('bays.replan.before')}</th>
            <th>{t('bays.replan.after')}</th>
          </tr>
        </thead>
        <tbody>
          {view.moved.map((m) => (
            <tr key={m.jobId}>
              <td>{m.who}</td>
              <td className="num">{at(m.readyBeforeMin) + sure(m.beforePpm)}</td>
              <td className="num">{at(m.readyAfterMin) + sure(m.afterPpm)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
