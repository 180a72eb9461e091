import { type ReactNode, useEffect, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { ReplanView } from '#core/shared/views/plan.ts';
import type { PlanChange } from '#core/shared/views/planChange.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useTask } from '../../bridge/tasks.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import { plainPlans } from './asks.ts';
import { useBetterLook } from './betterLook.ts';
import { Found } from './Found.tsx';
import css from './panel.module.css';
import { ReplanRows } from './ReplanRows.tsx';
import { Searching } from './Searching.tsx';
import type { Deed } from './undoStack.ts';

/** How long to look. The rounds of the short look take about a second on a full board. */
const LOOKS = {
  short: { iterations: 1500, seconds: 30 },
  long: { iterations: 200_000, seconds: 20 },
} as const;
type Look = keyof typeof LOOKS;

/** Looks for a better plan at once, shows what moves either side of the tape, and applies it whole or not at all. */
export function Replan(props: {
  readonly onApplied: (deed: Deed, change: PlanChange) => void;
  readonly onClose: () => void;
}): ReactNode {
  const t = useText();
  const task = useTask('bays.replan');
  const apply = useCommand('bays.applyReplan');
  const [agreed, setAgreed] = useState<readonly JobId[]>([]);
  const [bold, setBold] = useState<readonly JobId[]>([]);
  const { start } = task;
  const { shown, hold } = useBetterLook(task.running ? undefined : task.value);
  const view = shown?.view;
  useEffect(() => start(LOOKS.short), [start]);
  const look = (how: Look, fixed: readonly JobId[] = []): void => {
    apply.clear();
    hold(how === 'long' ? (view ?? null) : null);
    start({ ...LOOKS[how], consent: [...agreed], fixed: [...fixed] });
  };
  const accept = async (view: ReplanView): Promise<void> => {
    const plans = plainPlans(view.moved.map((m) => m.after));
    const { planRevision, nowMin } = view;
    const outcome = await apply.run({ planRevision, nowMin, plans, consent: [...agreed], bold: [...bold] });
    if (!outcome.ok) return;
    const [one] = view.moved;
    props.onApplied({ kind: 'replan', who: one?.who ?? '', count: view.moved.length }, outcome.value);
    props.onClose();
  };
  return (
    <section className={css['replan']} aria-label={t('bays.replan')}>
      <div className={css['replanHead']}>
        {task.running ? <Searching progress={task.progress} onStop={task.stop} /> : null}
        {view ? <Found view={view} /> : null}
        {shown?.nothingBetter ? <p className="quiet">{t('bays.replan.nothingBetter')}</p> : null}
        {view ? (
          <Answers
            view={view}
            open={openQuestions(view.moved, agreed, bold)}
            busy={apply.busy}
            look={look}
            accept={accept}
          />
        ) : null}
        <span className={css['endOfLine']}>
          <LinkButton onPress={props.onClose}>{t('bays.replan.drop')}</LinkButton>
        </span>
      </div>
      {view && view.moved.length > 0 ? (
        <ReplanRows
          moved={view.moved}
          agreed={{ jobs: agreed, set: setAgreed }}
          bold={{ jobs: bold, set: setBold }}
        />
      ) : null}
      <Refusal refusal={task.refusal ?? apply.refusal} />
    </section>
  );
}

type Open = { readonly ask: readonly JobId[]; readonly choose: readonly JobId[] };

/** Who has to agree and has not been said to, and promises that are bold and were not chosen. */
function openQuestions(moved: ReplanView['moved'], agreed: readonly JobId[], bold: readonly JobId[]): Open {
  const ids = (rows: ReplanView['moved']): readonly JobId[] => rows.map((m) => m.jobId);
  return {
    ask: ids(moved.filter((m) => m.needsConsent && !agreed.includes(m.jobId))),
    choose: ids(moved.filter((m) => m.bold && !bold.includes(m.jobId))),
  };
}

/** Apply all of it, look on, or look again and leave those who have not agreed as they are. */
function Answers(props: {
  readonly view: ReplanView;
  readonly open: Open;
  readonly busy: boolean;
  readonly look: (how: Look, fixed?: readonly JobId[]) => void;
  readonly accept: (view: ReplanView) => Promise<void>;
}): ReactNode {
  const t = useText();
  const { view, open } = props;
  const left = [...new Set([...open.ask, ...open.choose])];
  const why = [
    open.ask.length > 0 ? t('bays.replan.askFirst', { count: open.ask.length }) : '',
    open.choose.length > 0 ? t('bays.replan.choose', { count: open.choose.length }) : '',
  ].filter(Boolean);
  return (
    <>
      {view.moved.length > 0 ? (
        <Button
          kind="go"
          busy={props.busy}
          why={why.length > 0 ? why.join(' ') : undefined}
          onPress={() => void props.accept(view)}
        >
          {t('bays.replan.apply')}
        </Button>
      ) : null}
      {left.length > 0 ? (
        <LinkButton onPress={() => props.look('short', left)}>
          {t('bays.replan.without', { count: left.length })}
        </LinkButton>
      ) : null}
      {view.proved === 'plan' && !view.moved.some((m) => m.needsConsent) ? null : (
        <LinkButton onPress={() => props.look('long')}>{t('bays.replan.longer')}</LinkButton>
      )}
    </>
  );
}
