import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { when } from '#core/shared/text/when.ts';
import type { VoucherEntryRow, VoucherView } from '#core/shared/views/vouchers.ts';
import { printedCode } from '#core/shared/voucherCode.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './billing.module.css';
import { InCoins } from './InCoins.tsx';
import { PayWay, type Way } from './PayWay.tsx';
import { VoucherOver } from './VoucherOver.tsx';

/** One voucher: its sheet, what became of it, and how what is left goes back. */
export function VoucherBecame(props: { readonly voucherId: string }): ReactNode {
  const t = useText();
  const { voucherId } = props;
  const voucher = useQuery('billing.readVoucher', { voucherId });
  const pdf = useDocument('billing.voucherFile');
  if (!voucher.data) return voucher.error ? <Refusal refusal={voucher.error} /> : <Waiting />;
  const { number, code, entries, leftMinor } = voucher.data;
  return (
    <section>
      <Head
        level={3}
        title={t('billing.voucherLine', { number })}
        note={<span className="num">{t('voucher.code', { code: printedCode(code) })}</span>}
      />
      <List label={t('voucher.became')}>
        {entries.map((entry) => (
          <Became key={`${entry.atMs}${entry.kind}${entry.amountMinor}`} entry={entry} />
        ))}
      </List>
      <PaperActs
        paper={{ ...pdf, open: () => pdf.open({ voucherId }), save: () => pdf.save({ voucherId }) }}
        mail={null}
        to={{ name: '', email: '' }}
      />
      {leftMinor > 0 ? <GoesBack voucher={voucher.data} /> : null}
      <VoucherOver key={entries.length} voucher={voucher.data} />
    </section>
  );
}

function Became(props: { readonly entry: VoucherEntryRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { kind, amountMinor, atMs, by, invoiceId, invoiceNumber } = props.entry;
  return (
    <Item>
      <span className={css['grow']}>
        {t(`voucher.entry.${kind}`)}{' '}
        {invoiceId && invoiceNumber !== null ? (
          <LinkTo to={`/money/${invoiceId}`} quiet>
            {t('voucher.onDocument', { number: invoiceNumber })}
          </LinkTo>
        ) : null}
        <span className="t1 dusty">{` ${when(manner, atMs, Date.now())} ${by}`}</span>
      </span>
      <span className={css['end']}>{money(manner, amountMinor)}</span>
    </Item>
  );
}

/** What is left goes back in money, or, where its sale was taxed, by a credit note of that. */
function GoesBack(props: { readonly voucher: VoucherView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { number, leftMinor, leftCashMinor, invoiceId, invoiceNumber } = props.voucher;
  const [open, setOpen] = useState(false);
  const [way, setWay] = useState<Way>('card');
  const back = useCommand('billing.payVoucherBack');
  const amountMinor = way === 'cash' ? leftCashMinor : leftMinor;
  if (invoiceId)
    return (
      <LinkTo to={`/money/${invoiceId}`} quiet>
        {t('voucher.toInvoice', { number: invoiceNumber ?? 0 })}
      </LinkTo>
    );
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('voucher.payBackAsk')}</LinkButton>;
  return (
    <div className={css['form']}>
      <PayWay value={way} onChange={setWay} />
      <InCoins way={way} exactMinor={leftMinor} cashMinor={leftCashMinor} />
      <Refusal refusal={back.refusal} />
      <Row>
        <Button
          kind="final"
          busy={back.busy}
          why={amountMinor > 0 ? undefined : t('money.noCoins')}
          onPress={() => void back.run({ number, amountMinor, way })}
        >
          {t('voucher.payBack', { amount: money(manner, amountMinor) })}
        </Button>
      </Row>
    </div>
  );
}
