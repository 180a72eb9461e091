import type { ReactNode } from 'react';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { CashCountRow } from '#core/shared/views/till.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import { CountForm } from './CountForm.tsx';

/** The till: what should lie in it, what does, and every count so far. */
export function TillScreen(): ReactNode {
  const t = useText();
  const till = useQuery('billing.readTill', {});
  return (
    <Place label={t('till.title')}>
      <Column>
        <Head title={t('till.title')}>
          <LinkTo to="/money" quiet>
            {t('invoice.back')}
          </LinkTo>
        </Head>
        <Refusal refusal={till.error} />
        {till.data ? (
          <Stack gap={3}>
            <CountForm key={till.data.counts[0]?.seq ?? 0} till={till.data} />
            {till.data.counts.length === 0 ? null : <Counts counts={till.data.counts} />}
          </Stack>
        ) : (
          <Waiting />
        )}
      </Column>
    </Place>
  );
}

function Counts(props: { readonly counts: readonly CashCountRow[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const sum = (key: string, head: string, of: (row: CashCountRow) => number): TableColumn<CashCountRow> => ({
    ...{ key, head, width: '120px', align: 'right' },
    cell: (row) => (of(row) === 0 ? '' : moneyPlain(manner, of(row))),
  });
  const said = ({ floatMinor, reason }: CashCountRow): string => {
    const float = floatMinor === 0 ? '' : t('till.floatIs', { amount: money(manner, floatMinor) });
    return [float, reason].filter((part) => part !== '').join(' · ');
  };
  const columns: readonly TableColumn<CashCountRow>[] = [
    { key: 'day', head: t('till.day'), width: '120px', cell: (r) => dayText(manner, r.day, today) },
    sum('expected', t('till.expected'), (r) => r.expectedMinor),
    sum('counted', t('till.counted'), (r) => r.countedMinor),
    sum('difference', t('till.difference'), (r) => r.countedMinor - r.expectedMinor),
    sum('banked', t('till.banked'), (r) => r.bankedMinor),
    { key: 'reason', head: t('till.reason'), cell: (r) => <span title={said(r)}>{said(r)}</span> },
    { key: 'by', head: t('till.by'), width: '18%', cell: (r) => r.by },
  ];
  return (
    <section>
      <Head level={3} title={t('till.counts')} />
      <Table
        label={t('till.counts')}
        columns={columns}
        rows={props.counts}
        rowKey={(row) => String(row.seq)}
        lit={(row) => row.countedMinor !== row.expectedMinor}
      />
    </section>
  );
}
