import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import { sayMonday } from '#core/shared/text/sayMonday.ts';
import type { MondayThing, MondayView } from '#core/shared/views/monday.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Place } from '../../ui/Layout.tsx';
import { Caution, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import css from './week.module.css';

/** The five things worth doing this week, the most worth first; the same on one page to print. */
export function WeekScreen(): ReactNode {
  const t = useText();
  const view = useQuery('figures.monday', {});
  const paper = useDocument('figures.mondayFile');
  return (
    <Place label={t('monday.title')} columns="one">
      <div className={css['page']}>
        <FiguresNav />
        <Head title={t('monday.title')} note={t('monday.note')}>
          <LinkButton quiet busy={paper.busy} onPress={() => void paper.open({})}>
            {t('monday.print')}
          </LinkButton>
          <LinkButton quiet busy={paper.busy} onPress={() => void paper.save({})}>
            {t('monday.save')}
          </LinkButton>
        </Head>
        <Refusal refusal={view.error ?? paper.refusal} />
        {view.loading ? <Waiting /> : null}
        {view.data?.things.length === 0 ? (
          <Empty title={t('monday.none')} text={t('monday.noneText')} />
        ) : null}
        <ol className={css['things']}>
          {view.data?.things.map((thing, i) => (
            <Thing key={thing.kind} thing={thing} first={i === 0} />
          ))}
        </ol>
        {view.data ? <Rest view={view.data} /> : null}
      </div>
    </Place>
  );
}

function Thing(props: { readonly thing: MondayThing; readonly first: boolean }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { thing } = props;
  return (
    <li className={css['thing']} data-first={props.first}>
      <p className={css['saved']}>
        <b>{money(manner, thing.savedMinor)}</b>
        {thing.promises > 0 ? <span>{t('monday.kept', { promises: thing.promises })}</span> : null}
      </p>
      <div className={css['said']}>
        <h2>{sayMonday(manner, thing.said)}</h2>
        <ul>
          {thing.cases.map((one) => (
            <li key={one.to + JSON.stringify(one.said.values)}>
              <a href={`#${one.to}`}>{sayMonday(manner, one.said)}</a>
            </li>
          ))}
          {thing.moreCases > 0 ? (
            <li className={css['more']}>
              <LinkTo to={thing.to} quiet>
                {t('monday.more', { count: thing.moreCases })}
              </LinkTo>
            </li>
          ) : null}
        </ul>
        <p className={css['why']}>{sayMonday(manner, thing.why)}</p>
      </div>
    </li>
  );
}

function Rest(props: { readonly view: MondayView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { others, clear } = props.view;
  return (
    <footer className={css['rest']}>
      {others.length > 0 ? (
        <p>
          {t('monday.others')}:{' '}
          {others.map((o) => `${t(`monday.kind.${o.kind}`)} ${money(manner, o.savedMinor)}`).join(' · ')}
        </p>
      ) : null}
      {clear.length > 0 ? (
        <p>
          {t('monday.clear')}: {clear.map((kind) => t(`monday.kind.${kind}`)).join(' · ')}
        </p>
      ) : null}
      {props.view.things.length > 0 ? <Caution>{t('monday.caution')}</Caution> : null}
    </footer>
  );
}
