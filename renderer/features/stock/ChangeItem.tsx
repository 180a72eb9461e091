import { type ReactNode, useState } from 'react';
import type { LocalDay } from '#core/shared/units.ts';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { ItemFields } from './ItemFields.tsx';
import { changesOf, draftOf, isReady } from './itemDraft.ts';

/** Changes what is written down of an item, or says that it is no longer kept, or kept again. */
export function ChangeItem(props: {
  readonly item: StockItemDetail;
  readonly today: LocalDay;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const { item } = props;
  const [draft, setDraft] = useState(() => draftOf(item));
  const change = useCommand('stock.changeItem');
  async function send(changes: Parameters<typeof change.run>[0]['changes']): Promise<void> {
    const done = await change.run({ itemId: item.id, revision: item.revision, changes });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={2}>
      <ItemFields draft={draft} set={(part) => setDraft({ ...draft, ...part })} known />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          why={isReady(draft) ? undefined : t('stock.ui.nameFirst')}
          onPress={() => void send(changesOf(draft))}
        >
          {t('stock.ui.saveChanges')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
        <LinkButton
          quiet
          onPress={() => void send({ endedDay: item.endedDay === null ? props.today : null })}
        >
          {item.endedDay === null ? t('stock.ui.endItem') : t('stock.ui.keepItem')}
        </LinkButton>
      </Row>
    </Stack>
  );
}
