import { type ReactNode, useState } from 'react';
import type { BillExtra, LineTax } from '#core/shared/bill.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { go } from '../../ui/router.ts';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';

/** A draft before it is issued: discount, order number, note; then its number for good. */
export function DraftForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const [orderNumber, setOrderNumber] = useState(invoice.orderNumber);
  const [note, setNote] = useState(invoice.note);
  const [discount, setDiscount] = useState<number | null>(
    -(invoice.bill.extras[0]?.amountMinor ?? 0) || null,
  );
  const change = useCommand('billing.changeDraft');
  const drop = useCommand('billing.dropDraft');
  const which = { invoiceId: invoice.id, revision: invoice.revision };
  const tax = invoice.bill.lines[0]?.tax;
  async function keep(): Promise<void> {
    const lines = invoice.bill.lines.filter((line) => line.what !== 'deposit');
    const extras = discount && tax ? [discountOf(t('invoice.discountText'), discount, tax)] : [];
    await change.run({ ...which, lines: [...lines], extras, orderNumber, note });
  }
  async function away(): Promise<void> {
    const done = await drop.run(which);
    if (done.ok) go('/money');
  }
  return (
    <Stack>
      {invoice.agreed ? null : <Caution>{t('invoice.unagreed')}</Caution>}
      <Issue invoice={invoice} />
      <section className={css['form']}>
        <MoneyField label={t('invoice.discount')} value={discount} onChange={setDiscount} min={0} />
        <TextField
          label={t('invoice.orderNumber')}
          value={orderNumber}
          onChange={setOrderNumber}
          maxLength={60}
        />
        <TextField label={t('invoice.note')} value={note} onChange={setNote} lines={2} maxLength={1000} />
        <Refusal refusal={change.refusal ?? drop.refusal} />
        <Row>
          <Button busy={change.busy} onPress={() => void keep()}>
            {t('invoice.saveDraft')}
          </Button>
          <LinkButton onPress={() => void away()}>{t('invoice.drop')}</LinkButton>
        </Row>
      </section>
    </Stack>
  );
}

function discountOf(text: string, discount: number, tax: LineTax): BillExtra {
  return { text, amountMinor: -discount, tax };
}

/** Issues; a doubtful date or number is asked for in place. */
function Issue(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const issue = useCommand('billing.issueInvoice');
  const confirm = useCommand('billing.confirmNumber');
  const [last, setLast] = useState<number | null>(null);
  const run = (date: DateChoice): void =>
    void issue.run({ invoiceId: invoice.id, revision: invoice.revision, date });
  const code = issue.refusal?.code;
  return (
    <section className={css['form']}>
      <Refusal refusal={issue.refusal ?? confirm.refusal}>
        <DateAnswers code={code} onDate={run} />
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
        <Button kind="go" busy={issue.busy} onPress={() => run('ask')}>
          {t('invoice.issue')}
        </Button>
        <span className="t1 dusty">{t('invoice.issueNote')}</span>
      </Row>
    </section>
  );
}
