import { type ReactNode, useState } from 'react';
import type { WhatIfStart } from '#core/shared/views/whatIf.ts';
import { unreadHere } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useTask } from '../../bridge/tasks.ts';
import { useText } from '../../bridge/texts.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { CalmNote, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import { WhatIfAnswer } from './WhatIfAnswer.tsx';
import { WhatIfQuestions } from './WhatIfQuestions.tsx';
import { WhatIfRunning } from './WhatIfRunning.tsx';
import css from './whatIf.module.css';
import { changeOf, isSame, NOTHING, type WhatIfForm } from './whatIf.ts';

/** What another bay, person, shift, price or mix would bring, asked on the left and answered on the right. */
export function WhatIfScreen(): ReactNode {
  const t = useText();
  const start = useQuery('figures.whatIfStart', {});
  const { data } = start;
  return (
    <Place label={t('whatIf.title')}>
      <div className={css['page']}>
        <FiguresNav />
        <Refusal refusal={start.error} />
        {start.loading ? <Waiting /> : null}
        {!data ? null : data.finished >= data.needed ? (
          <Asked start={data} />
        ) : (
          <Empty title={t('whatIf.needs', countsOf(data))} text={t('whatIf.needsText')} />
        )}
      </div>
    </Place>
  );
}

function countsOf({ needed, finished, weeks }: WhatIfStart) {
  return { needed, finished, weeks };
}

function Asked(props: { readonly start: WhatIfStart }): ReactNode {
  const t = useText();
  const task = useTask('figures.whatIf');
  const [form, setForm] = useState<WhatIfForm>(NOTHING);
  const change = changeOf(form);
  const [unread, setUnread] = useState<string | null>(null);
  // Boxes that are taken back start anew: one that could not be read would keep its text.
  const [round, setRound] = useState(0);
  const run = (): void => {
    const at = unreadHere();
    setUnread(at);
    if (at === null) task.start({ change });
  };
  const clear = (): void => {
    setForm(NOTHING);
    setUnread(null);
    setRound((n) => n + 1);
  };
  const stale = task.value !== undefined && !isSame(task.value.change, change);
  const { start } = props;
  return (
    <div className={css['sides']}>
      <Column label={t('whatIf.ask')}>
        <Head title={t('whatIf.ask')} />
        <WhatIfQuestions
          key={round}
          {...{ start, form }}
          onChange={setForm}
          busy={task.running}
          onRun={run}
          onClear={clear}
        />
      </Column>
      <Column label={t('whatIf.answer')} divided>
        {task.running ? <WhatIfRunning progress={task.progress} onStop={task.stop} /> : null}
        {unread === null ? null : <Told text={t('whatIf.unread', { at: unread })} />}
        <Refusal refusal={task.refusal} />
        {stale && !task.running ? <Told text={t('whatIf.changed')} /> : null}
        {task.value ? (
          <WhatIfAnswer view={task.value} start={start} />
        ) : task.running || task.refusal ? null : (
          <Empty
            title={t('whatIf.begin')}
            text={t('whatIf.beginText', { weeks: start.weeks, jobs: start.finished })}
          />
        )}
      </Column>
    </div>
  );
}

function Told(props: { readonly text: string }): ReactNode {
  return (
    <div className={css['told']}>
      <CalmNote text={props.text} />
    </div>
  );
}
