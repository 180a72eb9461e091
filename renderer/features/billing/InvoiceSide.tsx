import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import { when } from '#core/shared/text/when.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import { BilledAbove, PartlyBilled } from './BilledAbove.tsx';
import css from './billing.module.css';
import { CreditForm } from './CreditForm.tsx';
import { CreditHeld } from './CreditHeld.tsx';
import { DraftForm } from './DraftForm.tsx';
import { InvoicePapers } from './InvoicePapers.tsx';
import { PayForm } from './PayForm.tsx';
import { RefundForm } from './RefundForm.tsx';
import { TwoPayers } from './SplitForm.tsx';
import { UseVoucher } from './UseVoucher.tsx';

/** What to do with a document: issue, take money, pay back, correct, print, send. */
export function InvoiceSide(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const issued = invoice.number !== null;
  const live = issued && invoice.kind !== 'credit';
  return (
    <Column divided label={t(`invoice.title.${invoice.kind}`)}>
      <Stack gap={3}>
        {invoice.billedAbove ? <BilledAbove invoice={invoice} above={invoice.billedAbove} /> : null}
        {issued ? null : <DraftForm invoice={invoice} />}
        <PartlyBilled invoice={invoice} />
        <TwoPayers invoice={invoice} />
        {live ? <Standing invoice={invoice} /> : null}
        {live && invoice.owedMinor > 0 && invoice.creditHeldMinor > 0 ? (
          <CreditHeld invoice={invoice} />
        ) : null}
        {live && invoice.owedMinor > 0 ? <PayForm key={invoice.owedMinor} invoice={invoice} /> : null}
        {invoice.kind === 'credit' ? null : <UseVoucher key={invoice.number} invoice={invoice} />}
        {invoice.of ? <Corrected invoice={invoice} of={invoice.of} /> : null}
        {issued && invoice.owedMinor < 0 ? (
          <RefundForm
            key={invoice.owedMinor}
            from="invoice"
            id={invoice.id}
            amountMinor={-invoice.owedMinor}
            cashMinor={-invoice.owedCashMinor}
          />
        ) : null}
        <InvoicePapers invoice={invoice} />
        {live ? <Settled invoice={invoice} /> : null}
        {live && !invoice.wholeCredited ? (
          <CreditForm key={invoice.credits.length} invoice={invoice} />
        ) : null}
      </Stack>
    </Column>
  );
}

function Standing(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { owedMinor, overdueDays } = props.invoice;
  const word = owedMinor > 0 ? 'invoice.owed' : owedMinor < 0 ? 'invoice.shopOwes' : 'invoice.settled';
  return (
    <div className={overdueDays > 0 || owedMinor < 0 ? 'lit' : undefined} data-owed={owedMinor}>
      <div className="t1 dusty">{t(word)}</div>
      {owedMinor === 0 ? null : <div className="t4 num">{money(manner, Math.abs(owedMinor))}</div>}
      {overdueDays > 0 ? <div className="lamp">{t('invoice.late', { days: overdueDays })}</div> : null}
    </div>
  );
}

/** On a credit note's own page: the document it corrects, and what the shop still owes on that. */
function Corrected(props: {
  readonly invoice: InvoiceView;
  readonly of: NonNullable<InvoiceView['of']>;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { id, number } = props.of;
  const owes = props.invoice.owedMinor < 0;
  return (
    <div className={owes ? 'lit' : undefined}>
      <div className="t1 dusty">{t(owes ? 'invoice.creditOwes' : 'invoice.creditOwesNone', { number })}</div>
      {owes ? <div className="t4 num">{money(manner, -props.invoice.owedMinor)}</div> : null}
      <LinkTo to={`/money/${id}`} quiet>
        {t('invoice.toCorrected', { number })}
      </LinkTo>
    </div>
  );
}

function Settled(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const receipt = useDocument('billing.receiptFile');
  const { payments, beside, credits } = props.invoice;
  const rows = [...payments.map((p) => ({ p, extra: false })), ...beside.map((p) => ({ p, extra: true }))];
  return (
    <section>
      <Head level={3} title={t('invoice.payments')} />
      {payments.length + credits.length === 0 ? <p className="quiet">{t('invoice.noPayments')}</p> : null}
      <Refusal refusal={receipt.refusal} />
      <List label={t('invoice.payments')}>
        {rows.map(({ p, extra }) => (
          <Item key={`${p.id}${p.amountMinor}`}>
            <span className={css['grow']}>
              {extra ? `${t('invoice.beside')}: ` : null}
              {t(`invoice.kind.${p.kind}`)}, {t(`invoice.way.${p.way}`)}
              <span className="t1 dusty"> {when(manner, p.atMs, Date.now())} </span>
              <LinkButton quiet onPress={() => void receipt.open({ receipt: p.receipt })}>
                {t('invoice.receipt', { number: p.receipt })}
              </LinkButton>
            </span>
            <span className={css['end']}>{money(manner, p.amountMinor)}</span>
          </Item>
        ))}
        {credits.map((c) => (
          <Item key={c.id}>
            <LinkTo to={`/money/${c.id}`}>
              {t('invoice.credits', { number: c.number, amount: money(manner, c.toPayMinor) })}
            </LinkTo>
          </Item>
        ))}
      </List>
    </section>
  );
}
