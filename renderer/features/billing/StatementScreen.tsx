import { type ReactNode, useState } from 'react';
import type { CustomerId } from '#core/shared/ids.ts';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { StatementEntry, StatementView } from '#core/shared/views/statement.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import css from './billing.module.css';

/** A customer's account over a period, and the same on paper. */
export function StatementScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const customerId = props.params['customerId'] as CustomerId;
  const today = useToday();
  const [fromDay, setFrom] = useState<LocalDay | null>(`${today.slice(0, 4)}-01-01` as LocalDay);
  const [toDay, setTo] = useState<LocalDay | null>(today);
  const ask = { customerId, fromDay: fromDay ?? today, toDay: toDay ?? today };
  const when = fromDay !== null && toDay !== null;
  const statement = useQuery('billing.readStatement', ask, { when, keep: true });
  const paper = useDocument('billing.statementFile');
  return (
    <Place label={t('statement.title')}>
      <Column>
        <Head title={t('statement.title')} note={statement.data?.customer.name}>
          <LinkTo to={`/customers/${customerId}`} quiet>
            {t('statement.back')}
          </LinkTo>
        </Head>
        <div className={css['fields']}>
          <DayField label={t('tax.from')} value={fromDay} onChange={setFrom} />
          <DayField label={t('tax.to')} value={toDay} onChange={setTo} />
        </div>
        <Stack>
          <Refusal refusal={statement.error} />
          {statement.data ? <Entries statement={statement.data} /> : null}
          {statement.data ? (
            <PaperActs
              paper={{
                busy: paper.busy,
                refusal: paper.refusal,
                open: () => paper.open(ask),
                save: () => paper.save(ask),
              }}
              mail={null}
              to={statement.data.customer}
            />
          ) : null}
        </Stack>
      </Column>
    </Place>
  );
}

function Entries(props: { readonly statement: StatementView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { statement } = props;
  const today = useToday();
  const columns: readonly TableColumn<StatementEntry>[] = [
    { key: 'day', head: t('statement.day'), width: '120px', cell: (e) => dayText(manner, e.day, today) },
    {
      key: 'what',
      head: t('statement.what'),
      cell: (e) => t(`statement.what.${e.what}`, { number: e.number }),
    },
    {
      ...{ key: 'amount', head: t('statement.amount'), width: '140px', align: 'right' },
      cell: (e) => moneyPlain(manner, e.amountMinor),
    },
    {
      ...{ key: 'balance', head: t('statement.balance'), width: '140px', align: 'right' },
      cell: (e) => moneyPlain(manner, e.balanceMinor),
    },
  ];
  return (
    <>
      <p>
        {t('statement.opening')} <b className="num">{money(manner, statement.openingMinor)}</b>
      </p>
      {statement.entries.length === 0 ? (
        <p className="quiet">{t('statement.none')}</p>
      ) : (
        <Table
          label={t('statement.title')}
          columns={columns}
          rows={statement.entries}
          rowKey={(e) => `${e.what}${e.number}${e.balanceMinor}`}
        />
      )}
      <p>
        {t(statement.closingMinor < 0 ? 'statement.held' : 'statement.closing')}{' '}
        <b className="num">{money(manner, Math.abs(statement.closingMinor))}</b>
      </p>
    </>
  );
}
