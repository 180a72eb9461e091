import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import type { BilledAboveView } from '#core/shared/views/partial.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';

/** How a document stands to the partial invoices of its job. */
export function PartlyBilled(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { before, progress } = props.invoice;
  if (progress === null && before.length === 0) return null;
  return (
    <section>
      <Head level={3} title={t('partial.before')} />
      <Stack gap={1}>
        {progress ? (
          <p className="quiet">
            {t('partial.nth', { nth: progress.nth, rest: money(manner, progress.restMinor) })}
          </p>
        ) : null}
        <List label={t('partial.before')}>
          {before.map(({ id, number, day, toPayMinor }) => (
            <Item key={id}>
              <LinkTo to={`/money/${id}`}>
                {t('partial.beforeLine', { number, day: date(manner, day) })}
              </LinkTo>
              <span className={css['end']}>{money(manner, toPayMinor)}</span>
            </Item>
          ))}
        </List>
      </Stack>
    </section>
  );
}

/** Writes the credit notes that put it right, one after the other; one that is refused leaves the rest proposed. */
export function BilledAbove(props: {
  readonly invoice: InvoiceView;
  readonly above: BilledAboveView;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { credits, aboveMinor } = props.above;
  const [reason, setReason] = useState('');
  const credit = useCommand('billing.creditInvoice');
  async function write(when: DateChoice): Promise<void> {
    for (const { invoiceId, lines } of credits) {
      const made = await credit.run({ invoiceId, lines: [...lines], reason, date: when });
      if (!made.ok) return;
    }
  }
  return (
    <section className={css['form']} data-above={aboveMinor}>
      <Head level={3} title={t('partial.above')} />
      <Caution>{t('partial.aboveText', { amount: money(manner, aboveMinor) })}</Caution>
      <List label={t('partial.above')}>
        {credits.map(({ invoiceId, number }) => (
          <Item key={invoiceId}>
            <LinkTo to={`/money/${invoiceId}`}>{t('partial.creditOn', { number })}</LinkTo>
          </Item>
        ))}
      </List>
      {credits.length === 0 ? (
        <p className="quiet">{t('partial.creditByHand')}</p>
      ) : (
        <>
          <TextField label={t('invoice.creditReason')} value={reason} onChange={setReason} maxLength={400} />
          <Refusal refusal={credit.refusal}>
            <DateAnswers code={credit.refusal?.code} onDate={(when) => void write(when)} />
          </Refusal>
          <Row>
            <Button
              kind="final"
              busy={credit.busy}
              why={reason.trim() === '' ? t('invoice.creditReason') : undefined}
              onPress={() => void write('ask')}
            >
              {t('partial.creditNow', { n: credits.length })}
            </Button>
          </Row>
        </>
      )}
    </section>
  );
}
