import { type ReactNode, useState } from 'react';
import type { TextKey } from '#core/shared/text/en.ts';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { date, dayText } from '#core/shared/text/when.ts';
import {
  VOUCHER_LISTS,
  type VoucherList,
  type VoucherRow,
  type VouchersPage,
} from '#core/shared/views/vouchers.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import { SellVoucher } from './SellVoucher.tsx';
import { VoucherBecame } from './VoucherBecame.tsx';
import { LetGo } from './VoucherOver.tsx';

/** Gift vouchers: sold on the left; each with what is left of it and what became of it on the right. */
export function VouchersScreen(): ReactNode {
  const t = useText();
  const [search, setSearch] = useState('');
  const [selected, setSelected] = useState<string | null>(null);
  const [list, setList] = useState<VoucherList>('all');
  const page = useQuery('billing.listVouchers', { search, list }, { keep: true });
  return (
    <Place label={t('voucher.title')} columns="left">
      <Column label={t('voucher.sell')}>
        <Head title={t('voucher.sell')} />
        {page.data ? <SellVoucher purpose={page.data.purpose} onSold={setSelected} /> : null}
      </Column>
      <Column label={t('voucher.title')} divided>
        <Head title={t('voucher.title')} note={page.data ? <Held page={page.data} /> : undefined}>
          <LinkTo to="/money" quiet>
            {t('invoice.back')}
          </LinkTo>
        </Head>
        <Stack>
          <TextField
            label={t('voucher.search')}
            kind="search"
            value={search}
            onChange={setSearch}
            maxLength={120}
          />
          <Words
            label={t('voucher.title')}
            value={list}
            onChange={setList}
            options={VOUCHER_LISTS.map((value) => ({ value, label: t(`voucher.list.${value}`) }))}
          />
          <Refusal refusal={page.error} />
          {page.data ? (
            <Vouchers
              rows={page.data.rows}
              none={search !== '' ? 'voucher.noneFound' : `voucher.none.${list}`}
              selected={selected}
              onSelect={setSelected}
            />
          ) : (
            <Waiting />
          )}
          {page.data && list === 'over' ? <LetAllGo rows={page.data.rows} /> : null}
          {selected === null ? null : <VoucherBecame key={selected} voucherId={selected} />}
        </Stack>
      </Column>
    </Place>
  );
}

function Held(props: { readonly page: VouchersPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { heldMinor, overMinor } = props.page;
  const held = t('voucher.held', { amount: money(manner, heldMinor) });
  if (overMinor === 0) return held;
  return `${held}, ${t('voucher.overPart', { amount: money(manner, overMinor) })}`;
}

function Vouchers(props: {
  readonly rows: readonly VoucherRow[];
  readonly none: TextKey;
  readonly selected: string | null;
  readonly onSelect: (id: string | null) => void;
}): ReactNode {
  const t = useText();
  const columns = useColumns();
  if (props.rows.length === 0) return <Empty title={t(props.none)} />;
  return (
    <Table
      label={t('voucher.title')}
      columns={columns}
      rows={props.rows}
      rowKey={(row) => row.id}
      selected={props.selected}
      onSelect={props.onSelect}
      onOpen={props.onSelect}
    />
  );
}

/** What is left of all those shown whose time is over, let go at once. */
function LetAllGo(props: { readonly rows: readonly VoucherRow[] }): ReactNode {
  const isOwner = useMay('owner');
  const rows = props.rows.filter((row) => row.mayLetGo);
  if (!isOwner || rows.length < 2) return null;
  const amountMinor = rows.reduce((sum, row) => sum + row.leftMinor, 0);
  return <LetGo voucherIds={rows.map((row) => row.id)} amountMinor={amountMinor} />;
}

function useColumns(): readonly TableColumn<VoucherRow>[] {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const left = (row: VoucherRow): ReactNode => {
    if (row.letGoMinor > 0) return <span className="quiet">{t('voucher.entry.letGo')}</span>;
    if (row.leftMinor === 0) return <span className="quiet">{t('voucher.spent')}</span>;
    return <b>{moneyPlain(manner, row.leftMinor)}</b>;
  };
  const until = (row: VoucherRow): ReactNode => {
    if (row.expiresDay === null) return <span className="quiet">{t('voucher.never')}</span>;
    const day = date(manner, row.expiresDay);
    return row.expired ? <span className="quiet">{`${day}, ${t('voucher.over')}`}</span> : day;
  };
  return [
    { key: 'number', head: t('voucher.number'), width: '72px', cell: (r) => r.number },
    {
      key: 'customer',
      head: t('voucher.customer'),
      cell: (r) => r.customer || <span className="quiet">{t('voucher.unnamed')}</span>,
    },
    { key: 'for', head: t('voucher.forName'), cell: (r) => r.forName },
    { key: 'sold', head: t('voucher.sold'), width: '104px', cell: (r) => dayText(manner, r.soldDay, today) },
    { key: 'until', head: t('voucher.expires'), width: '20%', cell: until },
    {
      key: 'value',
      head: t('voucher.value'),
      width: '88px',
      align: 'right',
      cell: (r) => moneyPlain(manner, r.valueMinor),
    },
    { key: 'left', head: t('voucher.left'), width: '88px', align: 'right', cell: left },
  ];
}
