import { type ReactNode, useState } from 'react';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { go, queryOf, usePath } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import { ItemFields } from './ItemFields.tsx';
import { blankOf, isReady, newItem } from './itemDraft.ts';
import css from './stock.module.css';

/** Writes down a new item. Keeps what was typed when the core refuses. */
export function NewItem(): ReactNode {
  const t = useText();
  const material = queryOf(usePath()).get('material');
  const [draft, setDraft] = useState(() => blankOf(material));
  const add = useCommand('stock.addItem');
  async function save(): Promise<void> {
    const done = await add.run(newItem(draft));
    if (done.ok) go(`/stock/items/${done.value.itemId}`);
  }
  return (
    <Place label={t('stock.ui.newItem')}>
      <Column>
        <Stack gap={3}>
          <Head level={1} title={t('stock.ui.newItem')} />
          <div className={css['form']}>
            <ItemFields draft={draft} set={(part) => setDraft({ ...draft, ...part })} known={false} />
          </div>
          <Refusal refusal={add.refusal} />
          <Row>
            <Button
              kind="go"
              busy={add.busy}
              why={isReady(draft) ? undefined : t('stock.ui.nameFirst')}
              onPress={() => void save()}
            >
              {t('stock.ui.saveItem')}
            </Button>
            <LinkTo to="/stock">{t('stock.ui.leave')}</LinkTo>
          </Row>
        </Stack>
      </Column>
    </Place>
  );
}
