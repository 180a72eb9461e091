import { type ReactNode, useState } from 'react';
import { moneyPlain, rate } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { TAX_BASES, type TaxBasis, type TaxReportRow } from '#core/shared/views/billingReports.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Caution, Empty, Refusal } from '../../ui/States.tsx';
import { Table, type Column as TableColumn } from '../../ui/Table.tsx';
import css from './billing.module.css';
import { Tips } from './Tips.tsx';

/** Tax by rate of a period, and every booking of it as a file for the accountant. */
export function TaxScreen(): ReactNode {
  const t = useText();
  const today = useToday();
  const [fromDay, setFrom] = useState<LocalDay | null>(`${today.slice(0, 7)}-01` as LocalDay);
  const [toDay, setTo] = useState<LocalDay | null>(today);
  const [basis, setBasis] = useState<TaxBasis>('invoice');
  const whole = fromDay !== null && toDay !== null;
  const period = { fromDay: fromDay ?? today, toDay: toDay ?? today };
  const report = useQuery('billing.readTaxReport', { ...period, basis }, { when: whole, keep: true });
  const file = useDocument('billing.journalFile');
  const year = useDocument('billing.yearFile');
  const rows = report.data?.rows ?? [];
  return (
    <Place label={t('tax.title')}>
      <Column>
        <Head title={t('tax.title')}>
          <LinkTo to="/money" quiet>
            {t('invoice.back')}
          </LinkTo>
        </Head>
        <div className={css['fields']}>
          <DayField label={t('tax.from')} value={fromDay} onChange={setFrom} />
          <DayField label={t('tax.to')} value={toDay} onChange={setTo} />
          <Segmented
            label={t('tax.basis')}
            value={basis}
            onChange={setBasis}
            options={TAX_BASES.map((value) => ({ value, label: t(`tax.basis.${value}`) }))}
          />
        </div>
        <Stack>
          <Refusal refusal={report.error ?? file.refusal ?? year.refusal} />
          {report.data && rows.length === 0 ? <Empty title={t('tax.none')} /> : null}
          {report.data && rows.length > 0 ? (
            <TaxTable rows={rows} taxable={report.data.taxableMinor} tax={report.data.taxMinor} />
          ) : null}
          <Tips period={period} when={whole} />
          <Row>
            <Button
              busy={file.busy}
              why={whole ? undefined : t('tax.needsDays')}
              onPress={() => void file.save(period)}
            >
              {t('tax.journal')}
            </Button>
            <LinkButton why={whyNoFolder(whole, year.busy, t)} onPress={() => void year.save(period)}>
              {t(year.busy ? 'tax.folderBusy' : 'tax.folder')}
            </LinkButton>
            <span className="t1 dusty">{t('tax.folderNote')}</span>
          </Row>
          <Caution>{t('tax.caution')}</Caution>
        </Stack>
      </Column>
    </Place>
  );
}

function whyNoFolder(whole: boolean, busy: boolean, t: Say): string | undefined {
  if (!whole) return t('tax.needsDays');
  return busy ? t('tax.folderWait') : undefined;
}

function TaxTable(props: {
  readonly rows: readonly TaxReportRow[];
  readonly taxable: number;
  readonly tax: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const columns: readonly TableColumn<TaxReportRow>[] = [
    { key: 'name', head: t('tax.name'), cell: (r) => r.name },
    { key: 'rate', head: t('tax.rate'), align: 'right', cell: (r) => amountText(rate(manner, r.ratePpm)) },
    { key: 'documents', head: t('tax.documents'), align: 'right', cell: (r) => r.documents },
    {
      key: 'taxable',
      head: t('tax.taxable'),
      align: 'right',
      cell: (r) => moneyPlain(manner, r.taxableMinor),
    },
    { key: 'tax', head: t('tax.tax'), align: 'right', cell: (r) => moneyPlain(manner, r.taxMinor) },
  ];
  return (
    <Table
      label={t('tax.title')}
      columns={columns}
      rows={props.rows}
      rowKey={(r) => `${r.category}/${r.ratePpm}/${r.name}`}
      sum={['', '', '', moneyPlain(manner, props.taxable), moneyPlain(manner, props.tax)]}
    />
  );
}
