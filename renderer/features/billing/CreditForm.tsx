import { type ReactNode, useState } from 'react';
import { moneyPlain } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';

/** What is given back, by line of the document. */
type Amounts = Readonly<Record<number, number | null>>;

/** Corrects an issued document: all of it, or amounts of its lines. */
export function CreditForm(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { invoice } = props;
  const [open, setOpen] = useState(false);
  const [what, setWhat] = useState<'whole' | 'part'>('part');
  const [amounts, setAmounts] = useState<Amounts>({});
  const [reason, setReason] = useState('');
  const credit = useCommand('billing.creditInvoice');
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('invoice.credit')}</LinkButton>;
  async function run(date: DateChoice): Promise<void> {
    const lines = invoice.bill.lines.map((_, line) => ({ line, amountMinor: amounts[line] ?? 0 }));
    const chosen = what === 'whole' ? null : lines.filter((l) => l.amountMinor > 0);
    const made = await credit.run({ invoiceId: invoice.id, lines: chosen, reason, date });
    if (made.ok) go(`/money/${made.value.invoiceId}`);
  }
  return (
    <section className={css['form']}>
      <Head level={3} title={t('invoice.credit')} />
      <Segmented
        label={t('invoice.creditWhat')}
        value={what}
        onChange={setWhat}
        options={[
          { value: 'part', label: t('invoice.creditPart') },
          {
            value: 'whole',
            label: invoice.credits.length > 0 ? t('invoice.creditRest') : t('invoice.creditWhole'),
          },
        ]}
      />
      {what === 'part' ? <LineAmounts invoice={invoice} amounts={amounts} onChange={setAmounts} /> : null}
      <TextField label={t('invoice.creditReason')} value={reason} onChange={setReason} maxLength={400} />
      <Refusal refusal={credit.refusal}>
        <DateAnswers code={credit.refusal?.code} onDate={(date) => void run(date)} />
      </Refusal>
      <Row>
        <Button
          kind="final"
          busy={credit.busy}
          why={reason.trim() === '' ? t('invoice.creditReason') : undefined}
          onPress={() => void run('ask')}
        >
          {t('invoice.creditNow')}
        </Button>
      </Row>
    </section>
  );
}

/** The lines of which something is left to give back, each with what that is. */
function LineAmounts(props: {
  readonly invoice: InvoiceView;
  readonly amounts: Amounts;
  readonly onChange: (amounts: Amounts) => void;
}): ReactNode {
  const manner = useManner();
  const { invoice, amounts, onChange } = props;
  return invoice.bill.lines.map((line, i) => {
    const left = invoice.lineLeftMinor[i] ?? 0;
    if (left <= 0) return null;
    return (
      <MoneyField
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of an issued document never move
        key={i}
        label={line.text}
        hint={moneyPlain(manner, left)}
        value={amounts[i] ?? null}
        onChange={(value) => onChange({ ...amounts, [i]: value })}
        min={0}
      />
    );
  });
}
