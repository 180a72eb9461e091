import { type ReactNode, useState } from 'react';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import { INVOICE_LISTS, type InvoiceList, type InvoiceRow } from '#core/shared/views/billing.ts';
import type { AgeingView, MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import css from './billing.module.css';
import { MoneyFacts } from './MoneyFacts.tsx';
import { MoneyNeeds } from './MoneyNeeds.tsx';

/** Money: what needs a hand on the left, what is owed and every document on the right. */
export function Money(): ReactNode {
  const t = useText();
  const desk = useQuery('billing.readDesk', {});
  return (
    <Place label={t('money.title')} columns="left">
      <Column label={t('money.needs')}>
        <Head title={t('money.needs')} />
        <Refusal refusal={desk.error} />
        {desk.data ? <MoneyNeeds desk={desk.data} /> : desk.loading ? <Waiting /> : null}
      </Column>
      <Column label={t('money.invoices')} divided>
        {desk.data ? <Owed desk={desk.data} /> : null}
        <Documents />
        {desk.data ? <MoneyFacts desk={desk.data} /> : null}
      </Column>
    </Place>
  );
}

const AGES = ['notDue', 'upTo30', 'upTo60', 'upTo90', 'older'] as const;

function ageOf(ageing: AgeingView, age: (typeof AGES)[number]): number {
  return ageing[`${age}Minor`];
}

function Owed(props: { readonly desk: MoneyDesk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const isOwner = useMay('owner');
  const { ageing } = props.desk;
  return (
    <>
      <Head title={t('money.owed')} note={money(manner, ageing.owedMinor)}>
        {isOwner ? (
          <LinkTo to="/money/tax" quiet>
            {t('money.taxLink')}
          </LinkTo>
        ) : null}
      </Head>
      <div className={css['ages']}>
        {AGES.map((age) => (
          <div
            key={age}
            className={css['age']}
            data-lit={age !== 'notDue' && ageOf(ageing, age) > 0}
            data-age={age}
          >
            <div className="t1 dusty">{t(`money.${age}`)}</div>
            <div className="num strong">{moneyPlain(manner, ageOf(ageing, age))}</div>
          </div>
        ))}
      </div>
    </>
  );
}

const SHOWN = 100;

function Documents(): ReactNode {
  const t = useText();
  const [list, setList] = useState<InvoiceList>('open');
  const [search, setSearch] = useState('');
  const [selected, setSelected] = useState<string | null>(null);
  const page = useQuery('billing.listInvoices', { list, search, limit: SHOWN }, { keep: true });
  const columns = useColumns();
  const rows = page.data?.rows ?? [];
  return (
    <>
      <Head
        title={t('money.invoices')}
        note={page.data ? t('money.shown', { shown: rows.length, total: page.data.total }) : undefined}
      >
        <Words
          label={t('money.lists')}
          value={list}
          onChange={setList}
          options={INVOICE_LISTS.map((value) => ({ value, label: t(`money.list.${value}`) }))}
        />
      </Head>
      <TextField
        label={t('money.search')}
        kind="search"
        value={search}
        onChange={setSearch}
        maxLength={120}
      />
      <Refusal refusal={page.error} />
      {page.data && rows.length === 0 ? <Empty title={t(`money.empty.${list}`)} /> : null}
      {rows.length === 0 ? null : (
        <div className={css['documents']}>
          <div className={css['rows']}>
            <Table
              label={t('money.invoices')}
              columns={columns}
              rows={rows}
              rowKey={(row) => row.id}
              selected={selected}
              onSelect={setSelected}
              onOpen={(id) => go(`/money/${id}`)}
              lit={(row) => row.overdueDays > 0 || row.owedMinor < 0}
            />
          </div>
        </div>
      )}
    </>
  );
}

function useColumns(): readonly TableColumn<InvoiceRow>[] {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const due = (row: InvoiceRow): ReactNode => {
    if (row.overdueDays > 0)
      return <span className="lamp">{t('money.dueLate', { days: row.overdueDays })}</span>;
    return row.dueDay ? dayText(manner, row.dueDay, today) : '';
  };
  const left = (row: InvoiceRow): ReactNode => {
    if (row.owedMinor === 0) return '';
    const amount = moneyPlain(manner, Math.abs(row.owedMinor));
    return <b>{row.owedMinor < 0 ? t('money.backMinor', { amount }) : amount}</b>;
  };
  return [
    {
      key: 'number',
      head: t('money.number'),
      width: '104px',
      cell: (r) => (
        <>
          <LinkTo to={`/money/${r.id}`}>{r.number ?? t('money.draft')}</LinkTo>{' '}
          {r.kind === 'invoice' ? null : <span className="t1 dusty">{t(`money.kind.${r.kind}`)}</span>}
        </>
      ),
    },
    { key: 'customer', head: t('money.customer'), cell: (r) => r.customer },
    {
      key: 'vehicle',
      head: t('money.vehicle'),
      width: '17%',
      cell: (r) => <span className="quiet">{r.makeModel}</span>,
    },
    {
      key: 'issued',
      head: t('money.issued'),
      width: '98px',
      cell: (r) => (r.issuedDay ? dayText(manner, r.issuedDay, today) : ''),
    },
    { key: 'due', head: t('money.due'), width: '106px', cell: due },
    {
      key: 'amount',
      head: t('money.amount'),
      width: '80px',
      align: 'right',
      cell: (r) => moneyPlain(manner, r.toPayMinor),
    },
    {
      key: 'left',
      head: t('money.left'),
      width: '88px',
      align: 'right',
      cell: left,
    },
  ];
}
