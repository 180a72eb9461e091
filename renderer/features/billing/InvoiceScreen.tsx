import type { ReactNode } from 'react';
import type { BillLine } from '#core/shared/bill.ts';
import { count, hours, money, moneyPlain, rate } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { date } from '#core/shared/text/when.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import type { Params } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { InvoiceSide } from './InvoiceSide.tsx';

/** One document: its lines and sums on the left, what to do with it on the right. */
export function InvoiceScreen(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const invoice = useQuery('billing.readInvoice', { invoiceId: props.params['invoiceId'] ?? '' });
  if (!invoice.data)
    return (
      <Place label={t('money.title')}>
        {invoice.error ? <Refusal refusal={invoice.error} /> : <Waiting />}
      </Place>
    );
  return (
    <Place label={t(`invoice.title.${titleOf(invoice.data)}`)} columns="right">
      <Column>
        <InvoiceHead invoice={invoice.data} />
        <Lines invoice={invoice.data} />
      </Column>
      <InvoiceSide key={invoice.data.id} invoice={invoice.data} />
    </Place>
  );
}

/** The invoice that bills the rest after partial ones is the final one. */
function titleOf({ kind, before }: InvoiceView): InvoiceView['kind'] | 'final' {
  return kind === 'invoice' && before.length > 0 ? 'final' : kind;
}

function InvoiceHead(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { invoice } = props;
  const { issuedDay, dueDay, of } = invoice;
  const issued = issuedDay ? date(manner, issuedDay) : '';
  const facts = of
    ? t('invoice.factsCredit', { issued, number: of.number })
    : t('invoice.facts', { issued, due: dueDay ? date(manner, dueDay) : '' });
  return (
    <>
      <Head
        title={`${t(`invoice.title.${titleOf(invoice)}`)} ${invoice.number ?? ''}`}
        note={issuedDay ? facts : t('invoice.draft')}
      >
        {invoice.jobId ? (
          <LinkTo to={`/jobs/${invoice.jobId}`} quiet>
            {t('invoice.toJob', { number: invoice.jobNumber ?? 0 })}
          </LinkTo>
        ) : null}
        <LinkTo to="/money" quiet>
          {t('invoice.back')}
        </LinkTo>
      </Head>
      <p>
        <strong>{invoice.customer.name}</strong>{' '}
        <span className="quiet">
          {[invoice.vehicle?.makeModel, invoice.vehicle?.plate, invoice.reason].filter(Boolean).join(' · ')}
        </span>
      </p>
    </>
  );
}

/** Hours or pieces; a sum that was agreed as a whole has neither, nor has a part given back of a line. */
function written(line: BillLine, manner: Manner): string {
  if (line.ofLine !== undefined) return '';
  if (line.unit === 'min') return amountText(hours(manner, line.quantity));
  const whole = line.what !== 'goods' && line.per === Math.abs(line.quantity);
  return whole ? '' : count(manner, line.quantity);
}

type Shown = {
  readonly key: string;
  readonly text: string;
  readonly quantity: string;
  readonly amount: string;
  readonly strong: boolean;
};

function row(key: string, text: string, amount: string, more: Partial<Shown> = {}): Shown {
  return { key, text, amount, quantity: '', strong: false, ...more };
}

/** Lines, discounts, tax by rate, and what is left of it all to pay. */
function useRows(invoice: InvoiceView): readonly Shown[] {
  const t = useText();
  const manner = useManner();
  const { bill, totals, prepaidMinor, dueMinor, kind } = invoice;
  const plain = (minor: number): string => moneyPlain(manner, minor);
  const strong = { strong: true };
  const lines = bill.lines.map((line, i) => {
    const quantity = written(line, manner);
    return row(`l${i}`, line.text, plain(totals.lineShownMinor[i] ?? 0), { quantity });
  });
  const taxes = totals.taxes.map((tax) => {
    const name = `${tax.name} ${amountText(rate(manner, tax.ratePpm))}`;
    return row(`t${tax.category}${tax.ratePpm}`, name, plain(tax.taxMinor));
  });
  const rounding = row('round', t('invoice.rounding'), plain(totals.roundingMinor));
  const prepaid = [
    row('paid', t('invoice.prepaid'), plain(-prepaidMinor)),
    row('due', t('invoice.dueAmount'), money(manner, dueMinor), strong),
  ];
  const total = row('total', t('invoice.total'), money(manner, totals.toPayMinor), strong);
  const included = bill.taxIncluded;
  const net = row('net', t(included ? 'invoice.containsNet' : 'invoice.net'), plain(totals.netMinor));
  const parts = [net, ...taxes, ...(totals.roundingMinor === 0 ? [] : [rounding])];
  return [
    ...lines,
    ...bill.extras.map((extra, i) => row(`x${i}`, extra.text, plain(extra.amountMinor))),
    // As on paper: where the lines carry tax they add up to the total, and what it contains stands below.
    ...(included ? [total, ...parts] : [...parts, total]),
    ...(prepaidMinor === 0 || kind === 'credit' ? [] : prepaid),
  ];
}

function Lines(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const rows = useRows(props.invoice);
  const strong = (r: Shown, text: string): ReactNode => (r.strong ? <b>{text}</b> : text);
  return (
    <Table
      label={t('invoice.text')}
      rows={rows}
      rowKey={(r) => r.key}
      columns={[
        { key: 'text', head: t('invoice.text'), cell: (r) => strong(r, r.text) },
        {
          key: 'quantity',
          head: t('invoice.quantity'),
          width: '96px',
          align: 'right',
          cell: (r) => r.quantity,
        },
        {
          key: 'amount',
          head: t(props.invoice.bill.taxIncluded ? 'invoice.amountsWithTax' : 'invoice.amountsBefore'),
          width: '144px',
          align: 'right',
          cell: (r) => strong(r, r.amount),
        },
      ]}
    />
  );
}
