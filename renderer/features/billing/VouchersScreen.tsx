import { type ReactNode, useState } from 'react';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { date, dayText } from '#core/shared/text/when.ts';
import type { VoucherRow, VouchersPage } from '#core/shared/views/vouchers.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import { SellVoucher } from './SellVoucher.tsx';
import { VoucherBecame } from './VoucherBecame.tsx';

/** Gift vouchers: sold on the left; each with what is left of it and what became of it on the right. */
export function VouchersScreen(): ReactNode {
  const t = useText();
  const [search, setSearch] = useState('');
  const [selected, setSelected] = useState<string | null>(null);
  const page = useQuery('billing.listVouchers', { search }, { keep: true });
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
          <Refusal refusal={page.error} />
          {page.data ? (
            <Vouchers
              rows={page.data.rows}
              found={search !== ''}
              selected={selected}
              onSelect={setSelected}
            />
          ) : (
            <Waiting />
          )}
          {selected === null ? null : <VoucherBecame key={selected} voucherId={selected} />}
        </Stack>
      </Column>
    </Place>
  );
}

function Held(props: { readonly page: VouchersPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  return t('voucher.held', { amount: money(manner, props.page.heldMinor) });
}

function Vouchers(props: {
  readonly rows: readonly VoucherRow[];
  readonly found: boolean;
  readonly selected: string | null;
  readonly onSelect: (id: string | null) => void;
}): ReactNode {
  const t = useText();
  const columns = useColumns();
  if (props.rows.length === 0) return <Empty title={t(props.found ? 'voucher.noneFound' : 'voucher.none')} />;
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

function useColumns(): readonly TableColumn<VoucherRow>[] {
  const t = useText();
  const manner = useManner();
  const left = (row: VoucherRow): ReactNode => {
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
    { key: 'customer', head: t('voucher.customer'), cell: (r) => r.customer },
    { key: 'for', head: t('voucher.forName'), cell: (r) => r.forName },
    { key: 'sold', head: t('voucher.sold'), width: '104px', cell: (r) => dayText(manner, r.soldDay) },
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
