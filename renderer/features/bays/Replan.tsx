import { type ReactNode, useEffect } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { hours, lasting } from '#core/shared/text/format.ts';
import type { JobPlanView, ReplanView } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useTask } from '../../bridge/tasks.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import css from './bays.module.css';
import { ReplanRows } from './ReplanRows.tsx';
import { plainPlans } from './useMoves.ts';

/** How long to look: about a second on a full board. */
const LOOK = { iterations: 1500 } as const;

/** Looks for a better plan at once, shows what moves either side of the tape, and applies it whole or not at all. */
export function Replan(props: {
  readonly scale: TimeScale;
  readonly onApplied: (undo: readonly JobPlanView[]) => void;
  readonly onClose: () => void;
}): ReactNode {
  const t = useText();
  const task = useTask('bays.replan');
  const apply = useCommand('bays.applyReplan');
  const view = task.value;
  const { start } = task;
  useEffect(() => start(LOOK), [start]);
  const accept = async (consent: readonly JobId[]): Promise<void> => {
    if (!view) return;
    const plans = plainPlans(view.moved.map((m) => m.after));
    const outcome = await apply.run({ planRevision: view.planRevision, plans, consent: [...consent] });
    if (!outcome.ok) return;
    props.onApplied(outcome.value.undo);
    props.onClose();
  };
  return (
    <section className={css['replan']} aria-label={t('bays.replan')}>
      <div className={css['replanHead']}>
        {task.running ? (
          <>
            <span aria-busy="true">{t('bays.replan.working')}</span>
            <LinkButton onPress={task.cancel}>{t('bays.replan.stop')}</LinkButton>
          </>
        ) : (
          <>
            {view ? <Found view={view} /> : null}
            <LinkButton onPress={() => start(LOOK)}>{t('bays.replan.again')}</LinkButton>
          </>
        )}
        {view && view.moved.length > 0 && !task.running ? (
          <Button kind="go" busy={apply.busy} onPress={() => void accept([])}>
            {t('bays.replan.apply')}
          </Button>
        ) : null}
        <LinkButton onPress={props.onClose}>{t('bays.replan.drop')}</LinkButton>
      </div>
      {view && view.moved.length > 0 && !task.running ? (
        <ReplanRows moved={view.moved} scale={props.scale} />
      ) : null}
      <Refusal refusal={task.refusal ?? apply.refusal}>
        {view && apply.refusal?.code === 'NEEDS_CONSENT' ? (
          <LinkButton onPress={() => void accept(laterThanPromised(view))}>{t('bays.agreed')}</LinkButton>
        ) : null}
      </Refusal>
    </section>
  );
}

/** Cars that this plan brings home later than was promised: their owners have to agree first. */
function laterThanPromised(view: ReplanView): readonly JobId[] {
  return view.moved
    .filter((m) => m.promiseMin !== null && m.readyAfterMin > m.promiseMin)
    .map((m) => m.jobId);
}

/** What the look found, in words: how late before and after, and how little late anything could be. */
function Found(props: { readonly view: ReplanView }): ReactNode {
  const { view } = props;
  const t = useText();
  const manner = useManner();
  const late = (minutes: number): string => {
    const of = minutes < 120 ? lasting(manner, minutes) : hours(manner, minutes);
    return `${of.value} ${of.unit}`;
  };
  const { before, after } = view;
  const words = {
    ...{ behind: before.behind, broken: before.broken },
    moved: view.moved.length,
    before: late(before.lateMin),
    after: late(after.lateMin),
    bound: late(view.boundLateMin),
  };
  const stuck = before.behind > 0 ? 'behind' : before.broken > 0 ? 'broken' : 'found';
  const said = view.moved.length === 0 ? 'none' : stuck;
  return (
    <p>
      {t(`bays.replan.${said}`, words)} {view.proved ? t('bays.replan.proved') : null}
    </p>
  );
}
