import { type ReactNode, useState } from 'react';
import type { SupplierId } from '#core/shared/ids.ts';
import type { PriceBreak, StockItemDetail, SupplierLinkView } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { type BreakDraft, BreakFields, breaksOf } from './BreakFields.tsx';

type Props = { readonly item: StockItemDetail; readonly links: readonly SupplierLinkView[] };

/** Says in what packs and at what price a supplier sells an item; choosing one who does already changes that. */
export function SellerForm(props: Props): ReactNode {
  const t = useText();
  const [open, setOpen] = useState(false);
  const known = props.links.length;
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('stock.ui.sells', { known })}</LinkButton>;
  return <Fields {...props} onDone={() => setOpen(false)} />;
}

type Draft = {
  readonly supplierId: SupplierId | null;
  readonly packSize: number | null;
  readonly priceMinor: number | null;
  readonly code: string;
  readonly preferred: boolean;
  readonly breaks: readonly BreakDraft[];
  /** Of what was known when it was chosen; null where this supplier did not sell it. */
  readonly revision: number | null;
};

function draftFor(supplierId: SupplierId | null, { item, links }: Props): Draft {
  const known = links.find((l) => l.supplierId === supplierId);
  if (known) return { ...known, breaks: known.breaks.map((b: PriceBreak) => ({ ...b })) };
  const fresh = { priceMinor: null, code: '', preferred: true, breaks: [], revision: null };
  return { supplierId, packSize: item.packSize, ...fresh };
}

function Fields(props: Props & { readonly onDone: () => void }): ReactNode {
  const t = useText();
  const { item } = props;
  const suppliers = useQuery('stock.listSuppliers', {});
  const [draft, setDraft] = useState(() => draftFor(null, props));
  const set = (part: Partial<Draft>): void => setDraft({ ...draft, ...part });
  const link = useCommand('stock.linkSupplier');
  const { supplierId, packSize, priceMinor, code, preferred, revision } = draft;
  const ready = supplierId !== null && packSize !== null && packSize > 0 && priceMinor !== null;
  async function save(): Promise<void> {
    if (!ready) return;
    const said = { packSize, priceMinor, code, preferred, breaks: breaksOf(draft.breaks) };
    const done = await link.run({ supplierId, itemId: item.id, revision, ...said });
    if (done.ok) props.onDone();
  }
  if (suppliers.data?.length === 0) return <LinkTo to="/stock/suppliers">{t('stock.ui.newSupplier')}</LinkTo>;
  return (
    <Stack gap={1}>
      <Select
        label={t('stock.ui.seller')}
        value={supplierId}
        onChange={(chosen) => setDraft(draftFor(chosen, props))}
        options={(suppliers.data ?? []).map((s) => ({ value: s.id, label: s.name }))}
      />
      <AmountField
        label={t('stock.ui.packSize')}
        unit={item.unit}
        value={packSize}
        onChange={(value) => set({ packSize: value })}
      />
      <MoneyField
        label={t('stock.ui.price')}
        value={priceMinor}
        onChange={(value) => set({ priceMinor: value })}
        min={0}
      />
      <TextField
        label={t('stock.ui.sellerCode')}
        value={code}
        onChange={(value) => set({ code: value })}
        maxLength={60}
      />
      <BreakFields breaks={draft.breaks} onChange={(breaks) => set({ breaks })} />
      <Check
        label={t('stock.ui.firstChoice')}
        value={preferred}
        onChange={(value) => set({ preferred: value })}
      />
      <Refusal refusal={link.refusal} />
      <Row>
        <Button
          kind="go"
          busy={link.busy}
          why={ready ? undefined : t('stock.ui.sellerFirst')}
          onPress={() => void save()}
        >
          {t('stock.ui.saveLink')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}
