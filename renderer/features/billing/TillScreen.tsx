import { type ReactNode, useState } from 'react';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { CashCountRow, TillView } from '#core/shared/views/till.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import css from './billing.module.css';

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
            <Counts counts={till.data.counts} />
          </Stack>
        ) : (
          <Waiting />
        )}
      </Column>
    </Place>
  );
}

function CountForm(props: { readonly till: TillView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { expectedMinor } = props.till;
  const [counted, setCounted] = useState<number | null>(null);
  const [banked, setBanked] = useState<number | null>(0);
  const [reason, setReason] = useState('');
  const count = useCommand('billing.countCash');
  const difference = counted === null ? 0 : counted - expectedMinor;
  const why =
    counted === null
      ? t('till.counted')
      : difference !== 0 && reason.trim() === ''
        ? t('till.reason')
        : undefined;
  function keep(): void {
    if (counted !== null)
      void count.run({ expectedMinor, countedMinor: counted, bankedMinor: banked ?? 0, reason });
  }
  return (
    <section className={css['form']}>
      <div>
        <div className="t1 dusty">{t('till.expected')}</div>
        <div className="t4 num">{money(manner, expectedMinor)}</div>
      </div>
      <div className={css['fields']}>
        <MoneyField label={t('till.counted')} value={counted} onChange={setCounted} min={0} />
        <MoneyField label={t('till.banked')} value={banked} onChange={setBanked} min={0} />
      </div>
      {counted !== null && difference === 0 ? <p className="quiet">{t('till.fits')}</p> : null}
      {difference === 0 ? null : (
        <>
          <div className="lit">
            {t('till.difference')} <b className="num">{money(manner, difference)}</b>
          </div>
          <TextField label={t('till.reason')} value={reason} onChange={setReason} maxLength={300} />
        </>
      )}
      <Refusal refusal={count.refusal} />
      <Row>
        <Button kind="go" busy={count.busy} why={why} onPress={keep}>
          {t('till.keep')}
        </Button>
      </Row>
    </section>
  );
}

function Counts(props: { readonly counts: readonly CashCountRow[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.counts.length === 0) return <Empty title={t('till.none')} />;
  const sum = (key: string, head: string, of: (row: CashCountRow) => number): TableColumn<CashCountRow> => ({
    ...{ key, head, width: '120px', align: 'right' },
    cell: (row) => (of(row) === 0 ? '' : moneyPlain(manner, of(row))),
  });
  const columns: readonly TableColumn<CashCountRow>[] = [
    { key: 'day', head: t('till.day'), width: '120px', cell: (r) => dayText(manner, r.day) },
    sum('expected', t('till.expected'), (r) => r.expectedMinor),
    sum('counted', t('till.counted'), (r) => r.countedMinor),
    sum('difference', t('till.difference'), (r) => r.countedMinor - r.expectedMinor),
    sum('banked', t('till.banked'), (r) => r.bankedMinor),
    { key: 'reason', head: t('till.reason'), cell: (r) => <span title={r.reason}>{r.reason}</span> },
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
