import { type ReactNode, useState } from 'react';
import { count, money } from '#core/shared/text/format.ts';
import type { SupplierView } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { ChangeSupplier } from './ChangeSupplier.tsx';
import { BLANK_SUPPLIER, SupplierFields, sentSupplier } from './SupplierForm.tsx';
import css from './stock.module.css';

/** Suppliers with what was learned of their lead time; the chosen one to change, else a new one. */
export function Suppliers(): ReactNode {
  const t = useText();
  const list = useQuery('stock.listSuppliers', {});
  const [id, setId] = useState<string | null>(null);
  const chosen = list.data?.find((s) => s.id === id);
  return (
    <Place label={t('stock.ui.suppliers')} columns="left">
      <Column label={chosen?.name ?? t('stock.ui.newSupplier')}>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        {chosen ? <ChangeSupplier key={chosen.id} of={chosen} onDone={() => setId(null)} /> : <NewSupplier />}
      </Column>
      <Column label={t('stock.ui.suppliers')} divided>
        <Head title={t('stock.ui.suppliers')} note={t('stock.ui.suppliersNote')} />
        <Refusal refusal={list.error} />
        {list.loading ? <Waiting /> : null}
        {list.data?.length === 0 ? (
          <Empty title={t('stock.ui.noSuppliers')} text={t('stock.ui.noSuppliersText')} />
        ) : null}
        <List label={t('stock.ui.suppliers')}>
          {(list.data ?? []).map((s) => (
            <Item key={s.id} selected={s.id === id} onPress={() => setId(s.id === id ? null : s.id)}>
              <SupplierLine of={s} />
            </Item>
          ))}
        </List>
      </Column>
    </Place>
  );
}

function SupplierLine(props: { readonly of: SupplierView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { of } = props;
  const mean = count(manner, of.learnedLead?.meanDays ?? 0, 1);
  return (
    <span className={css['supplier']}>
      <b className="cut opens" title={of.name}>
        {of.name}
      </b>
      <span className="quiet">
        {t('stock.ui.supplierLine', { days: of.leadDays, n: of.learnedLead?.n ?? 0, mean })}
      </span>
      <span className="right num">
        {of.minOrderMinor > 0 ? t('stock.ui.fromMoney', { money: money(manner, of.minOrderMinor) }) : ''}
      </span>
    </span>
  );
}

function NewSupplier(): ReactNode {
  const t = useText();
  const [draft, setDraft] = useState(BLANK_SUPPLIER);
  const add = useCommand('stock.addSupplier');
  async function save(): Promise<void> {
    const done = await add.run(sentSupplier(draft));
    if (done.ok) setDraft(BLANK_SUPPLIER);
  }
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.newSupplier')} />
      <SupplierFields draft={draft} set={(part) => setDraft({ ...draft, ...part })} />
      <Refusal refusal={add.refusal} />
      <Button
        kind="go"
        busy={add.busy}
        why={draft.name.trim() === '' ? t('stock.ui.supplierName') : undefined}
        onPress={() => void save()}
      >
        {t('stock.ui.saveSupplier')}
      </Button>
    </Stack>
  );
}
