import type { ReactNode } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useEdited } from '../../bridge/edited.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { ItemFields } from './ItemFields.tsx';
import { changesOf, draftOf, type ItemDraft, isReady } from './itemDraft.ts';

/** Changes what is written down of an item, or says that it is no longer kept, or kept again. */
export function ChangeItem(props: {
  readonly item: StockItemDetail;
  readonly today: LocalDay;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { item } = props;
  const stored = draftOf(item);
  const edited = useEdited<ItemDraft>(stored, item.revision);
  const { draft, put, clashes } = edited;
  const change = useCommand('stock.changeItem');
  async function send(changes: Parameters<typeof change.run>[0]['changes']): Promise<void> {
    const done = await change.run({ itemId: item.id, revision: item.revision, changes });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={2}>
      <ItemFields draft={draft} set={put} known />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(`stock.ui.${LABELS[key]}`)}
        value={(key) => said(stored, key, t, manner)}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          why={
            clashes.length > 0
              ? t('ui.elsewhere.choose')
              : isReady(draft)
                ? undefined
                : t('stock.ui.nameFirst')
          }
          onPress={() => void send(changesOf(draft))}
        >
          {t('stock.ui.saveChanges')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
        <LinkButton
          quiet
          why={edited.typed ? t('stock.ui.typedFirst') : undefined}
          onPress={() => void send({ endedDay: item.endedDay === null ? props.today : null })}
        >
          {item.endedDay === null ? t('stock.ui.endItem') : t('stock.ui.keepItem')}
        </LinkButton>
      </Row>
    </Stack>
  );
}

/** The fields of a known item, by the keys of their labels. */
const LABELS = {
  name: 'name',
  material: 'material',
  unit: 'unit',
  packSize: 'packSize',
  packWord: 'packWord',
  place: 'place',
  barcode: 'barcode',
  hazards: 'hazards',
  sheet: 'sheet',
  reusable: 'reusable',
  usesPerLife: 'uses',
  shelfPacks: 'shelfPacks',
  sealedLifeDays: 'sealedLife',
  openedLifeDays: 'openedLife',
  preference: 'preference',
  amount: 'opening',
  valueMinor: 'openingValue',
} as const satisfies Readonly<Record<keyof ItemDraft, string>>;

/** What is stored of an item, as people read it. */
function said(stored: ItemDraft, key: keyof ItemDraft, t: Say, manner: Manner): string {
  if (key === 'material')
    return stored.material === 'none' ? t('stock.ui.noMaterial') : t(`word.material.${stored.material}`);
  if (key === 'packSize') return amountText(amountOf(manner, stored.unit, stored.packSize ?? 0));
  return String(stored[key] ?? '');
}
