import { type ReactNode, useState } from 'react';
import type { ItemId, SupplierId } from '#core/shared/ids.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { CameFields } from './CameFields.tsx';
import { type Came, proposedPack } from './came.ts';
import css from './stock.module.css';

const NOTHING: Came = { packs: null, packSize: 0, priceMinor: null, batch: '', bestBefore: null };

/** What somebody wrote; the rest stands as it is proposed. */
type Written = Partial<Came>;

/** Books in goods that nobody ordered here: bought over a counter, sent as a sample. */
export function Arrived(): ReactNode {
  const t = useText();
  const [supplierId, setSupplierId] = useState<SupplierId | null>(null);
  const [itemId, setItemId] = useState<ItemId | null>(null);
  const [written, setWritten] = useState<Written>({});
  const [booked, setBooked] = useState<string | null>(null);
  const items = useQuery('stock.listItems', {}).data ?? [];
  const suppliers = useQuery('stock.listSuppliers', {}).data ?? [];
  const known = useQuery('stock.showItem', { itemId: itemId ?? '' }, { when: itemId !== null }).data;
  const receive = useCommand('stock.receive');
  const item = items.find((i) => i.id === itemId);
  const proposed = known && known.item.id === itemId ? proposedPack(known, supplierId) : null;
  const came: Came = { ...NOTHING, ...proposed, ...written };
  async function book(acceptPrice: boolean): Promise<void> {
    const { packs, priceMinor, packSize, batch, bestBefore } = came;
    if (!item || !supplierId || packs === null || priceMinor === null) return;
    const line = { itemId: item.id, packs, priceMinor, packSize, batch, bestBefore };
    const done = await receive.run({ supplierId, lines: [line], acceptPrice });
    if (!done.ok) return;
    setBooked(item.name);
    setItemId(null);
    setWritten({});
  }
  /** Another item or another seller is another pack and price; how many came stays. */
  function anew(): void {
    setBooked(null);
    write({ packs: came.packs });
  }
  /** What was asked about were other figures. */
  function write(next: Written): void {
    receive.clear();
    setWritten(next);
  }
  function why(): string | undefined {
    if (supplierId === null || !item || !came.packs) return t('stock.ui.arrivedFirst');
    return came.priceMinor === null ? t('stock.ui.priceFirst') : undefined;
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
              onChange={(id) => {
                setSupplierId(id);
                anew();
              }}
              options={suppliers.map((s) => ({ value: s.id, label: s.name }))}
            />
            <Select
              label={t('stock.ui.itemWord')}
              value={itemId}
              onChange={(id) => {
                setItemId(id);
                anew();
              }}
              options={items.map((i) => ({ value: i.id, label: i.name }))}
            />
            <NumberField
              label={t('stock.ui.packsCame')}
              value={came.packs}
              onChange={(packs) => write({ ...written, packs })}
              min={1}
            />
          </div>
          {item && proposed ? (
            <>
              <CameFields unit={item.unit} came={came} onCame={write} />
              <p className="quiet">{t('stock.ui.priceAs', { as: proposed.as })}</p>
            </>
          ) : null}
          <Refusal refusal={receive.refusal}>
            {receive.refusal?.code === 'PRICE_UNLIKELY' ? (
              <LinkButton onPress={() => void book(true)}>{t('stock.ui.priceIsRight')}</LinkButton>
            ) : null}
          </Refusal>
          {booked ? <CalmNote title={t('stock.ui.bookedIn', { item: booked })} /> : null}
          <Row>
            <Button kind="go" busy={receive.busy} why={why()} onPress={() => void book(false)}>
              {t('stock.ui.bookIn')}
            </Button>
          </Row>
        </Stack>
      </Column>
    </Place>
  );
}
