import { type ReactNode, useState } from 'react';
import { sayJournal } from '#core/shared/text/sayJournal.ts';
import { exact, when } from '#core/shared/text/when.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** Who did what and when, newest first. */
export function JournalPart(): ReactNode {
  const t = useText();
  const manner = useManner();
  const [before, setBefore] = useState<number | null>(null);
  const page = useQuery('shop.journal', before === null ? {} : { before }, { keep: true });
  const older = page.data?.older ?? null;
  return (
    <>
      <Refusal refusal={page.error} />
      <List label={t('shop.part.journal')}>
        {page.data?.lines.map((line) => (
          <Item key={line.id}>
            <span className={css['journal']}>
              <span className="num" title={exact(manner, line.atMs)}>
                {when(manner, line.atMs, Date.now())}
              </span>
              <span className="cut">{line.person ?? t('journal.nobody')}</span>
              <span className="quiet">{sayJournal(manner, line)}</span>
            </span>
          </Item>
        ))}
      </List>
      <Row>
        {before === null ? null : <LinkButton onPress={() => setBefore(null)}>{t('shop.newest')}</LinkButton>}
        {older === null ? null : <LinkButton onPress={() => setBefore(older)}>{t('shop.older')}</LinkButton>}
      </Row>
    </>
  );
}
