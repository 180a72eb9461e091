import { type ReactNode, useState } from 'react';
import type { WhatIfStart } from '#core/shared/views/whatIf.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useTask } from '../../bridge/tasks.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { CalmNote, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { WhatIfAnswer } from './WhatIfAnswer.tsx';
import { WhatIfQuestions } from './WhatIfQuestions.tsx';
import { WhatIfRunning } from './WhatIfRunning.tsx';
import { changeOf, isSame, NOTHING, type WhatIfForm } from './whatIf.ts';

/** What another bay, person, shift, price or mix would bring, asked on the left and answered on the right. */
export function WhatIfScreen(): ReactNode {
  const t = useText();
  const start = useQuery('figures.whatIfStart', {});
  const ready = start.data && start.data.finished >= start.data.needed;
  return (
    <Place label={t('whatIf.title')} columns={ready ? 'left' : 'one'}>
      {ready && start.data ? (
        <Asked start={start.data} />
      ) : (
        <Column>
          <Title />
          <Refusal refusal={start.error} />
          {start.loading ? <Waiting /> : null}
          {start.data ? (
            <Empty title={t('whatIf.needs', countsOf(start.data))} text={t('whatIf.needsText')} />
          ) : null}
        </Column>
      )}
    </Place>
  );
}

function countsOf({ needed, finished, weeks }: WhatIfStart) {
  return { needed, finished, weeks };
}

function Title(): ReactNode {
  const t = useText();
  return (
    <Head level={1} title={t('whatIf.title')}>
      <LinkTo to="/figures" quiet>
        {t('figures.title')}
      </LinkTo>
    </Head>
  );
}

function Asked(props: { readonly start: WhatIfStart }): ReactNode {
  const t = useText();
  const task = useTask('figures.whatIf');
  const [form, setForm] = useState<WhatIfForm>(NOTHING);
  const change = changeOf(form);
  const run = (): void => task.start({ change });
  const stale = task.value !== undefined && !isSame(task.value.change, change);
  const { start } = props;
  return (
    <>
      <Column label={t('whatIf.ask')}>
        <Title />
        <WhatIfQuestions start={start} form={form} onChange={setForm} busy={task.running} onRun={run} />
      </Column>
      <Column label={t('whatIf.answer')} divided>
        {task.running ? <WhatIfRunning progress={task.progress} onStop={task.stop} /> : null}
        <Refusal refusal={task.refusal} />
        {stale && !task.running ? <CalmNote text={t('whatIf.changed')} /> : null}
        {task.value ? (
          <WhatIfAnswer view={task.value} />
        ) : task.running || task.refusal ? null : (
          <Empty
            title={t('whatIf.begin')}
            text={t('whatIf.beginText', { weeks: start.weeks, jobs: start.finished })}
          />
        )}
      </Column>
    </>
  );
}
