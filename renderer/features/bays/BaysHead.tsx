import type { ReactNode } from 'react';
import { type Say, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Key } from '../../ui/charts/Bars.tsx';
import { Head } from '../../ui/Layout.tsx';
import css from './bays.module.css';
import type { Back as BackOf, Changes } from './useChanges.ts';
import type { Week } from './useWeek.ts';
import { SPANS } from './weekDays.ts';

/** Which days are shown, what the forms mean, and what can be done with all of it. */
export function BaysHead(props: {
  readonly week: Week;
  readonly changes: Changes;
  readonly onReplan: () => void;
}): ReactNode {
  const t = useText();
  const { week, changes } = props;
  return (
    <Head title={week.title} note={<Legend />}>
      <span className={css['screenOnly']}>
        <Words
          label={t('bays.span')}
          options={SPANS.map((span) => ({ value: span, label: t(`bays.span.${span}`) }))}
          value={week.span}
          onChange={week.show}
        />
        <span className={css['turns']}>
          <LinkButton label={t('bays.earlier')} onPress={() => week.turn(-1)}>
            ‹
          </LinkButton>
          <LinkButton onPress={() => week.turn(0)}>{t('bays.today')}</LinkButton>
          <LinkButton label={t('bays.later')} onPress={() => week.turn(1)}>
            ›
          </LinkButton>
        </span>
        <Back changes={changes} />
        <LinkButton onPress={props.onReplan}>{t('bays.replan')}</LinkButton>
        <LinkButton onPress={() => window.print()}>{t('bays.print')}</LinkButton>
      </span>
    </Head>
  );
}

/** Undo and redo, with what they take back or do again. */
function Back({ changes: { undo, redo } }: { readonly changes: Changes }): ReactNode {
  const t = useText();
  const words = (back: BackOf | null): string =>
    back ? t(`bays.deed.${back.deed.kind}`, named(t, back)) : '';
  return (
    <>
      <span className={css['back']}>
        <LinkButton why={undo ? undefined : t('bays.noUndo')} onPress={() => undo?.run()}>
          {t('bays.undo')}
        </LinkButton>
        {undo ? (
          <span className="t1 quiet cut" title={words(undo)}>
            {words(undo)}
          </span>
        ) : null}
      </span>
      {redo ? (
        <span title={words(redo)}>
          <LinkButton onPress={redo.run}>{t('bays.redo')}</LinkButton>
        </span>
      ) : null}
    </>
  );
}

function named(t: Say, { deed }: BackOf): Readonly<Record<string, string | number>> {
  const { who, other = '', stage, count = 1 } = deed;
  return { who, other, count, stage: stage ? t(`word.stage.${stage}`) : '' };
}

function Legend(): ReactNode {
  const t = useText();
  return (
    <Key
      entries={[
        { form: 'done', label: t('bays.state.done') },
        { form: 'work', label: t('bays.state.inWork') },
        { form: 'cure', label: t('bays.state.curing') },
        { form: 'plan', label: t('bays.state.planned') },
        { form: 'offer', label: t('bays.state.offered') },
        { form: 'late', label: t('bays.state.late') },
      ]}
    />
  );
}
