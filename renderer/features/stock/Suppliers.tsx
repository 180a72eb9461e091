import { type ReactNode, useState } from 'react';
import { count, money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import css from './stock.module.css';

/** Suppliers with what was learned of their lead time, and a new one. */
export function Suppliers(): ReactNode {
  const t = useText();
  const manner = useManner();
  const list = useQuery('stock.listSuppliers', {});
  return (
    <Place label={t('stock.ui.suppliers')} columns="left">
      <Column label={t('stock.ui.newSupplier')}>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        <NewSupplier />
      </Column>
      <Column label={t('stock.ui.suppliers')} divided>
        <Head title={t('stock.ui.suppliers')} />
        <Refusal refusal={list.error} />
        {list.loading ? <Waiting /> : null}
        {list.data?.length === 0 ? <Empty title={t('stock.ui.noSuppliers')} /> : null}
        <List label={t('stock.ui.suppliers')}>
          {(list.data ?? []).map((s) => (
            <Item key={s.id}>
              <b className="cut">{s.name}</b>
              <span className="quiet">
                {t('stock.ui.supplierLine', {
                  days: s.leadDays,
                  n: s.learnedLead?.n ?? 0,
                  mean: count(manner, s.learnedLead?.meanDays ?? 0, 1),
                })}
              </span>
              <span className={css['end']}>{s.minOrderMinor > 0 ? money(manner, s.minOrderMinor) : ''}</span>
            </Item>
          ))}
        </List>
      </Column>
    </Place>
  );
}

function NewSupplier(): ReactNode {
  const t = useText();
  const [name, setName] = useState('');
  const [email, setEmail] = useState('');
  const [leadDays, setLead] = useState<number | null>(3);
  const [minOrderMinor, setMinimum] = useState<number | null>(null);
  const add = useCommand('stock.addSupplier');
  async function save(): Promise<void> {
    const done = await add.run({ name, email, leadDays: leadDays ?? 0, minOrderMinor: minOrderMinor ?? 0 });
    if (!done.ok) return;
    setName('');
    setEmail('');
    setMinimum(null);
  }
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.newSupplier')} />
      <TextField label={t('stock.ui.name')} value={name} onChange={setName} maxLength={120} />
      <TextField label={t('stock.ui.email')} kind="email" value={email} onChange={setEmail} maxLength={200} />
      <NumberField label={t('stock.ui.supplierLead')} value={leadDays} onChange={setLead} min={0} max={365} />
      <MoneyField label={t('stock.ui.supplierMinimum')} value={minOrderMinor} onChange={setMinimum} min={0} />
      <Refusal refusal={add.refusal} />
      <Button
        kind="go"
        busy={add.busy}
        why={name.trim() === '' ? t('stock.ui.nameFirst') : undefined}
        onPress={() => void save()}
      >
        {t('stock.ui.saveSupplier')}
      </Button>
    </Stack>
  );
}
