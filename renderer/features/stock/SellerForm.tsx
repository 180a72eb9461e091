import { type ReactNode, useState } from 'react';
import type { SupplierId } from '#core/shared/ids.ts';
import type { StockItemDetail } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Says in what packs and at what price a supplier sells an item. */
export function SellerForm(props: { readonly item: StockItemDetail }): ReactNode {
  const t = useText();
  const [open, setOpen] = useState(false);
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('stock.ui.sells')}</LinkButton>;
  return <Fields item={props.item} onDone={() => setOpen(false)} />;
}

function Fields(props: { readonly item: StockItemDetail; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const { item } = props;
  const suppliers = useQuery('stock.listSuppliers', {});
  const [supplierId, setSupplierId] = useState<SupplierId | null>(null);
  const [packSize, setPackSize] = useState<number | null>(item.packSize);
  const [priceMinor, setPrice] = useState<number | null>(null);
  const link = useCommand('stock.linkSupplier');
  const ready = supplierId !== null && packSize !== null && packSize > 0 && priceMinor !== null;
  async function save(): Promise<void> {
    if (!ready) return;
    const done = await link.run({ supplierId, itemId: item.id, packSize, priceMinor });
    if (done.ok) props.onDone();
  }
  if (suppliers.data?.length === 0) return <LinkTo to="/stock/suppliers">{t('stock.ui.newSupplier')}</LinkTo>;
  return (
    <Stack gap={1}>
      <Select
        label={t('stock.ui.seller')}
        value={supplierId}
        onChange={setSupplierId}
        options={(suppliers.data ?? []).map((s) => ({ value: s.id, label: s.name }))}
      />
      <AmountField label={t('stock.ui.packSize')} unit={item.unit} value={packSize} onChange={setPackSize} />
      <MoneyField label={t('stock.ui.price')} value={priceMinor} onChange={setPrice} min={0} />
      <Refusal refusal={link.refusal} />
      <Row>
        <Button
          kind="go"
          busy={link.busy}
          why={ready ? undefined : t('stock.ui.nameFirst')}
          onPress={() => void save()}
        >
          {t('stock.ui.saveLink')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
