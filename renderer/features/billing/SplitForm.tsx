import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

const PPM_PER_CENT = 10_000;

/** Of a bill that two pay: the other invoice, or, on a draft that could be split, how much the owner pays. */
export function TwoPayers(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { split, secondPayer } = props.invoice;
  if (secondPayer !== null) return <SplitForm invoice={props.invoice} name={secondPayer} />;
  if (split === null) return null;
  return (
    <p>
      <LinkTo to={`/money/${split.id}`} quiet>
        {t('split.other', { name: split.customer, amount: money(manner, split.toPayMinor) })}
      </LinkTo>
    </p>
  );
}

function SplitForm(props: { readonly invoice: InvoiceView; readonly name: string }): ReactNode {
  const t = useText();
  const { id: invoiceId, revision } = props.invoice;
  const split = useCommand('billing.splitDraft');
  const [by, setBy] = useState<'sum' | 'share'>('sum');
  const [value, setValue] = useState<number | null>(null);
  const put = () =>
    split.run({
      ...{ invoiceId, revision },
      part:
        by === 'sum'
          ? { by, amountMinor: value ?? 0 }
          : { by, sharePpm: Math.round((value ?? 0) * PPM_PER_CENT) },
    });
  return (
    <section className={css['form']}>
      <Head level={3} title={t('split.title')} />
      <p className="t1 quiet">{t('split.with', { name: props.name })}</p>
      <Segmented
        label={t('split.how')}
        options={(['sum', 'share'] as const).map((one) => ({ value: one, label: t(`split.${one}`) }))}
        value={by}
        onChange={(one) => {
          setBy(one);
          setValue(null);
        }}
      />
      {by === 'sum' ? (
        <MoneyField label={t('split.amount')} min={0} value={value} onChange={setValue} />
      ) : (
        <NumberField
          label={t('split.percent')}
          unit="%"
          digits={2}
          min={0}
          max={100}
          value={value}
          onChange={setValue}
        />
      )}
      <Refusal refusal={split.refusal} />
      <Row>
        <Button busy={split.busy} why={value ? undefined : t('shop.setUp.open')} onPress={() => void put()}>
          {t('split.go')}
        </Button>
        <span className="t1 dusty">{t('split.rule')}</span>
      </Row>
    </section>
  );
}
