import { type ReactNode, useState } from 'react';
import type { BillExtra, BillLine, LineTax } from '#core/shared/bill.ts';
import { moneyPlain } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { type Edited, useEdited } from '../../bridge/edited.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { go } from '../../ui/router.ts';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';

type Draft = { readonly orderNumber: string; readonly note: string; readonly discount: number | null };

function draftOf({ orderNumber, note, bill }: InvoiceView): Draft {
  return { orderNumber, note, discount: -(bill.extras[0]?.amountMinor ?? 0) || null };
}

/** A draft before it is issued: discount, order number, note; then its number for good. */
export function DraftForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const edited = useEdited(draftOf(invoice), invoice.revision);
  const { draft, clashes } = edited;
  const change = useCommand('billing.changeDraft');
  const drop = useCommand('billing.dropDraft');
  const which = { invoiceId: invoice.id, revision: edited.revision };
  const tax = invoice.bill.lines[0]?.tax;
  const partial = invoice.kind === 'partial';
  async function keep(): Promise<void> {
    const { discount, ...said } = draft;
    const { lines, extras } = partial
      ? asDrafted(invoice)
      : {
          lines: ownLines(invoice),
          extras: discount && tax ? [discountOf(t('invoice.discountText'), discount, tax)] : [],
        };
    const done = await change.run({ ...which, lines: [...lines], extras: [...extras], ...said });
    if (done.ok) edited.saved();
  }
  async function away(): Promise<void> {
    const done = await drop.run(which);
    if (done.ok) go('/money');
  }
  return (
    <Stack>
      {invoice.agreed ? null : <Caution>{t('invoice.unagreed')}</Caution>}
      {invoice.customer.address === '' ? <NoAddress invoice={invoice} /> : null}
      <Issue invoice={invoice} unsaved={edited.typed} />
      <section className={css['form']}>
        <DraftFields edited={edited} stored={draftOf(invoice)} discounts={!partial} />
        <Refusal refusal={change.refusal ?? drop.refusal} />
        <Row>
          <Button
            busy={change.busy}
            why={clashes.length > 0 ? t('ui.elsewhere.choose') : undefined}
            onPress={() => void keep()}
          >
            {t('invoice.saveDraft')}
          </Button>
          <LinkButton onPress={() => void away()}>{t('invoice.drop')}</LinkButton>
        </Row>
      </section>
    </Stack>
  );
}

function NoAddress(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { id, name } = props.invoice.customer;
  return (
    <Caution>
      {t('invoice.noAddress', { name })} <LinkTo to={`/customers/${id}`}>{t('invoice.toCustomer')}</LinkTo>
    </Caution>
  );
}

function DraftFields(props: {
  readonly edited: Edited<Draft>;
  readonly stored: Draft;
  readonly discounts: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { edited, stored } = props;
  const { draft, put } = edited;
  return (
    <>
      {props.discounts ? (
        <MoneyField
          label={t('invoice.discount')}
          value={draft.discount}
          onChange={(discount) => put({ discount })}
          min={0}
        />
      ) : null}
      <TextField
        label={t('invoice.orderNumber')}
        value={draft.orderNumber}
        onChange={(orderNumber) => put({ orderNumber })}
        maxLength={60}
      />
      <TextField
        label={t('invoice.note')}
        value={draft.note}
        onChange={(note) => put({ note })}
        lines={2}
        maxLength={1000}
      />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(`invoice.${key}`)}
        value={(key) => (key === 'discount' ? moneyPlain(manner, stored.discount ?? 0) : stored[key])}
      />
    </>
  );
}

/** What was taxed before comes off anew each time: it is no line of the draft. */
function ownLines({ bill }: InvoiceView): BillLine[] {
  return bill.lines.filter(({ what }) => what !== 'deposit' && what !== 'billed' && what !== 'voucher');
}

/** The lines of a partial invoice, which nobody changes by hand. */
function asDrafted({ bill }: InvoiceView): { readonly lines: BillLine[]; readonly extras: BillExtra[] } {
  return {
    lines: bill.lines.map(({ ofPart: _, ...line }) => line),
    extras: bill.extras.map(({ ofPart: _, ...extra }) => extra),
  };
}

function discountOf(text: string, discount: number, tax: LineTax): BillExtra {
  return { text, amountMinor: -discount, tax };
}

/** Issues what is saved; a doubtful date or number is asked for in place. */
function Issue(props: { readonly invoice: InvoiceView; readonly unsaved: boolean }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const issue = useCommand('billing.issueInvoice');
  const confirm = useCommand('billing.confirmNumber');
  const [last, setLast] = useState<number | null>(null);
  const [aheadOfWork, setAhead] = useState(false);
  const run = (date: DateChoice, ahead = aheadOfWork): void =>
    void issue.run({ invoiceId: invoice.id, revision: invoice.revision, date, aheadOfWork: ahead });
  const code = issue.refusal?.code;
  const runAhead = (): void => {
    setAhead(true);
    run('ask', true);
  };
  return (
    <section className={css['form']}>
      <Refusal refusal={issue.refusal ?? confirm.refusal}>
        <DateAnswers code={code} onDate={run} />
        {code === 'BILL_AHEAD_OF_WORK' || code === 'PARTIAL_AHEAD_OF_WORK' ? (
          <LinkButton onPress={runAhead}>{t('invoice.issueAhead')}</LinkButton>
        ) : null}
      </Refusal>
      {code === 'NUMBER_TO_CONFIRM' ? (
        <>
          <NumberField label={t('invoice.confirmNumber')} value={last} onChange={setLast} min={0} />
          <Button onPress={() => void confirm.run({ lastOnPaper: last ?? 0 }).then(() => issue.clear())}>
            {t('invoice.confirm')}
          </Button>
        </>
      ) : null}
      <Row>
        <Button
          kind="go"
          busy={issue.busy}
          why={props.unsaved ? t('invoice.keepFirst') : undefined}
          onPress={() => run('ask')}
        >
          {t('invoice.issue')}
        </Button>
        <span className="t1 dusty">{t('invoice.issueNote')}</span>
      </Row>
    </section>
  );
}
