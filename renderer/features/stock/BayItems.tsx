import { type ReactNode, useState } from 'react';
import type { ItemId } from '#core/shared/ids.ts';
import { amountOf } from '#core/shared/text/format.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { StockItemDetail } from '#core/shared/views/stockItem.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { useReader } from '../../ui/reader.ts';
import { Select } from '../../ui/Select.tsx';
import { CalmNote } from '../../ui/States.tsx';
import { Containers } from './Containers.tsx';
import { CountForm } from './CountForm.tsx';
import css from './stock.module.css';
import { TakeOutForm } from './TakeOutForm.tsx';

type Kept = StockItemDetail & { readonly onHand: number };

/** What is used up in the bays, for whoever opens it there: chosen or scanned, then opened, read, counted, written off. */
export function BayItems(): ReactNode {
  const t = useText();
  const items = (useQuery('stock.listItems', {}).data ?? []).filter((i) => !i.reusable);
  const [itemId, setItemId] = useState<ItemId | null>(null);
  const [unknown, setUnknown] = useState<string | null>(null);
  const item = items.find((i) => i.id === itemId);
  function choose(id: ItemId | null, code: string | null): void {
    setItemId(id);
    setUnknown(code);
  }
  useReader((code) => {
    const found = items.find((i) => i.barcode === code);
    choose(found?.id ?? null, found ? null : code);
  });
  if (items.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.bayItems')} className={css['pads']}>
      <Head title={t('stock.ui.bayItems')} note={t('stock.ui.bayItemsNote')} />
      <Stack gap={2}>
        <div className={css['form']}>
          <Select
            label={t('stock.ui.itemWord')}
            value={itemId}
            onChange={(id) => choose(id, null)}
            options={items.map((i) => ({ value: i.id, label: i.name, note: i.place }))}
          />
        </div>
        {unknown === null ? null : <CalmNote title={t('stock.ui.codeUnknown', { code: unknown })} />}
        {item ? <BayItem key={item.id} item={item} /> : null}
      </Stack>
    </section>
  );
}

function BayItem(props: { readonly item: Kept }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState<'count' | 'waste' | null>(null);
  const { item } = props;
  const today = localDayOf(Date.now(), manner.zone);
  const close = (): void => setOpen(null);
  return (
    <Stack gap={2}>
      <Row>
        <Figure amount={amountOf(manner, item.unit, item.onHand)} size={3} lit={item.onHand < 0} />
        <LinkButton onPress={() => setOpen(open === 'count' ? null : 'count')}>
          {t('stock.ui.countNow')}
        </LinkButton>
        <LinkButton onPress={() => setOpen(open === 'waste' ? null : 'waste')}>
          {t('stock.ui.wasteOpen')}
        </LinkButton>
      </Row>
      {open === 'count' ? <CountForm itemId={item.id} onDone={close} /> : null}
      {open === 'waste' ? <TakeOutForm kind="waste" item={item} onDone={close} /> : null}
      {item.unit === 'piece' ? null : <Containers page={{ item, row: item, today }} />}
    </Stack>
  );
}
