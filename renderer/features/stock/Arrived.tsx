import { type ReactNode, useState } from 'react';
import type { ItemId, SupplierId } from '#core/shared/ids.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { CameFields } from './CameFields.tsx';
import type { Came } from './came.ts';
import css from './stock.module.css';

const NOTHING: Came = { packs: null, packSize: 0, priceMinor: 0, batch: '', bestBefore: null };

/** Books in goods that nobody ordered here: bought over a counter, sent as a sample. */
export function Arrived(): ReactNode {
  const t = useText();
  const [supplierId, setSupplierId] = useState<SupplierId | null>(null);
  const [itemId, setItemId] = useState<ItemId | null>(null);
  const [came, setCame] = useState(NOTHING);
  const [booked, setBooked] = useState<string | null>(null);
  const items = useQuery('stock.listItems', {}).data ?? [];
  const suppliers = useQuery('stock.listSuppliers', {}).data ?? [];
  const receive = useCommand('stock.receive');
  const item = items.find((i) => i.id === itemId);
  const ready = supplierId !== null && item !== undefined && came.packs !== null && came.packs > 0;
  async function book(): Promise<void> {
    if (!ready || came.packs === null) return;
    const line = { ...came, itemId: item.id, packs: came.packs };
    const done = await receive.run({ supplierId, lines: [line] });
    if (!done.ok) return;
    setBooked(item.name);
    setItemId(null);
    setCame(NOTHING);
  }
  function choose(id: ItemId): void {
    setItemId(id);
    setBooked(null);
    setCame({ ...NOTHING, packSize: items.find((i) => i.id === id)?.packSize ?? 0 });
  }
  return (
    <Place label={t('stock.ui.arrived')}>
      <Column>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        <Stack gap={2}>
          <Head level={1} title={t('stock.ui.arrived')} note={t('stock.ui.arrivedNote')} />
          <div className={css['form']}>
            <Select
              label={t('stock.ui.seller')}
              value={supplierId}
              onChange={setSupplierId}
              options={suppliers.map((s) => ({ value: s.id, label: s.name }))}
            />
            <Select
              label={t('stock.ui.itemWord')}
              value={itemId}
              onChange={choose}
              options={items.map((i) => ({ value: i.id, label: i.name }))}
            />
            <NumberField
              label={t('stock.ui.packsCame')}
              value={came.packs}
              onChange={(packs) => setCame({ ...came, packs })}
              min={1}
            />
          </div>
          {item ? <CameFields unit={item.unit} came={came} onCame={setCame} /> : null}
          <Refusal refusal={receive.refusal} />
          {booked ? <CalmNote title={t('stock.ui.bookedIn', { item: booked })} /> : null}
          <Row>
            <Button
              kind="go"
              busy={receive.busy}
              why={ready ? undefined : t('stock.ui.arrivedFirst')}
              onPress={() => void book()}
            >
              {t('stock.ui.bookIn')}
            </Button>
          </Row>
        </Stack>
      </Column>
    </Place>
  );
}
