import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { plainCode } from '#core/shared/voucherCode.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

/** Gift vouchers on a document: a taxed one comes off the draft, an untaxed one pays it once it is issued. */
export function UseVoucher(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const [open, setOpen] = useState(false);
  const { invoice } = props;
  const issued = invoice.number !== null;
  const asks = issued ? invoice.owedMinor : invoice.totals.toPayMinor;
  const takes = invoice.kind === 'invoice' && asks > 0;
  if (invoice.vouchersOff.length === 0 && !takes && !owesVoucher(invoice)) return null;
  return (
    <section className={css['form']}>
      <TakenOff invoice={invoice} />
      {owesVoucher(invoice) ? <BackToVoucher invoice={invoice} /> : null}
      {takes && !open ? <LinkButton onPress={() => setOpen(true)}>{t('voucher.use')}</LinkButton> : null}
      {takes && open ? <VoucherForm invoice={invoice} asks={asks} onUsed={() => setOpen(false)} /> : null}
    </section>
  );
}

function owesVoucher({ owedMinor, vouchersUsed }: InvoiceView): boolean {
  return owedMinor < 0 && vouchersUsed.length > 0;
}

function VoucherForm(props: {
  readonly invoice: InvoiceView;
  readonly asks: number;
  readonly onUsed: () => void;
}): ReactNode {
  const t = useText();
  const { invoice, asks } = props;
  const [code, setCode] = useState('');
  const [amount, setAmount] = useState<number | null>(null);
  const use = useCommand('billing.useVoucher');
  const whole = code.trim() !== '' && amount !== null;
  // What it takes off already is put anew, not beside it.
  const noted = invoice.vouchersOff.find((v) => v.code === plainCode(code))?.amountMinor ?? 0;
  async function run(): Promise<void> {
    if (!whole) return;
    const done = await use.run({ code, invoiceId: invoice.id, amountMinor: amount });
    if (done.ok) props.onUsed();
  }
  return (
    <>
      <Head level={3} title={t('voucher.use')} />
      {invoice.number === null ? <p className="t1 quiet">{t('voucher.onDraft')}</p> : null}
      <div className={css['sums']}>
        <TextField label={t('voucher.useCode')} value={code} onChange={setCode} maxLength={40} autoFocus />
        <MoneyField
          label={t('voucher.useAmount')}
          value={amount}
          onChange={setAmount}
          min={1}
          max={asks + noted}
        />
      </div>
      <Refusal refusal={use.refusal} />
      <Row>
        <Button busy={use.busy} why={whole ? undefined : t('voucher.useFirst')} onPress={() => void run()}>
          {t('voucher.useNow')}
        </Button>
      </Row>
    </>
  );
}

function TakenOff(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { id: invoiceId, vouchersOff } = props.invoice;
  const leave = useCommand('billing.leaveVoucher');
  if (vouchersOff.length === 0) return null;
  return (
    <>
      <List label={t('voucher.title')}>
        {vouchersOff.map(({ number, amountMinor }) => (
          <Item key={number}>
            <span className={css['grow']}>
              {t('voucher.takesOff', { number, amount: money(manner, amountMinor) })}
            </span>
            <LinkButton quiet onPress={() => void leave.run({ number, invoiceId })}>
              {t('voucher.leave')}
            </LinkButton>
          </Item>
        ))}
      </List>
      <Refusal refusal={leave.refusal} />
    </>
  );
}

/** The shop owes on a document that vouchers paid: what they paid can go back to them. */
function BackToVoucher(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { id: invoiceId, owedMinor, vouchersUsed } = props.invoice;
  const back = useCommand('billing.returnToVoucher');
  return (
    <>
      <Refusal refusal={back.refusal} />
      {vouchersUsed.map((used) => {
        const amountMinor = Math.min(used.amountMinor, -owedMinor);
        const { number } = used;
        return (
          <Row key={number}>
            <LinkButton onPress={() => void back.run({ number, invoiceId, amountMinor })}>
              {t('voucher.goesBack', { number, amount: money(manner, amountMinor) })}
            </LinkButton>
          </Row>
        );
      })}
    </>
  );
}
