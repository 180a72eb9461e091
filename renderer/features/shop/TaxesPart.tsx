import { type ReactNode, useState } from 'react';
import { TAX_CODES, type TaxCode } from '#core/shared/tax.ts';
import { rate } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import css from './shop.module.css';
import { type TaxDraft, TaxFields } from './TaxFields.tsx';
import { type PartDraft, TaxPartsFields, wholeParts } from './TaxPartsFields.tsx';

/** Dated taxes. What is charged is for the shop's own adviser. */
export function TaxesPart(props: { readonly page: ShopPage }): ReactNode {
  return (
    <div className={css['form']}>
      <TaxTable taxes={props.page.taxes} />
      <NewTax />
    </div>
  );
}

function TaxTable(props: { readonly taxes: ShopPage['taxes'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <Table
      label={t('shop.part.taxes')}
      rows={props.taxes}
      rowKey={(row) => row.id}
      columns={[
        { key: 'code', head: t('shop.taxCode'), cell: (row) => t(`shop.code.${row.code}`) },
        { key: 'name', head: t('shop.taxName'), cell: (row) => <TaxNames row={row} /> },
        {
          key: 'rate',
          head: t('shop.taxRate'),
          align: 'right',
          cell: (row) => amountText(rate(manner, row.ratePpm)),
        },
        { key: 'category', head: t('shop.taxCategory'), cell: (row) => t(`shop.category.${row.category}`) },
        { key: 'from', head: t('shop.from'), cell: (row) => date(manner, row.fromDay) },
        { key: 'now', head: t('shop.holdsHead'), cell: (row) => (row.holds ? t('shop.holds') : '') },
      ]}
    />
  );
}

/** The name of a tax; of several on one sale each with its rate below it. */
function TaxNames(props: { readonly row: ShopPage['taxes'][number] }): ReactNode {
  const manner = useManner();
  const { name, parts } = props.row;
  return (
    <>
      {name}
      {parts.map((part) => (
        <div key={`${part.name}${part.ratePpm}`} className="t1 dusty">
          {part.name} {amountText(rate(manner, part.ratePpm))}
        </div>
      ))}
    </>
  );
}

const NO_TAX: TaxDraft = { name: '', category: 'S', ratePpm: null, reason: '' };

/** What a tax still needs before it can be set. */
function lackOf(tax: TaxDraft, parts: readonly PartDraft[], t: Say): string | undefined {
  if (tax.name.trim() === '') return t('shop.taxNeedsName');
  if (tax.category === 'S' && parts.length > 0)
    return wholeParts(parts).length === parts.length ? undefined : t('shop.taxNeedsParts');
  if (tax.category === 'S') return (tax.ratePpm ?? 0) > 0 ? undefined : t('shop.taxNeedsRate');
  return tax.category === 'Z' || tax.reason.trim() !== '' ? undefined : t('shop.taxNeedsReason');
}

function NewTax(): ReactNode {
  const t = useText();
  const set = useCommand('shop.setTax');
  const isOwner = useMay('owner');
  const [code, setCode] = useState<TaxCode>('standard');
  const [tax, setTax] = useState<TaxDraft>(NO_TAX);
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const [parts, setParts] = useState<readonly PartDraft[]>([]);
  const why = isOwner ? lackOf(tax, parts, t) : t('shop.onlyOwner');
  async function add(): Promise<void> {
    const day = fromDay ? { fromDay } : {};
    const several = tax.category === 'S' && parts.length > 0 ? { parts: wholeParts(parts) } : {};
    const done = await set.run({ code, ...tax, ratePpm: tax.ratePpm ?? 0, ...several, ...day });
    if (!done.ok) return;
    setTax(NO_TAX);
    setParts([]);
  }
  return (
    <>
      <Select
        label={t('shop.taxCode')}
        options={TAX_CODES.map((value) => ({ value, label: t(`shop.code.${value}`) }))}
        value={code}
        onChange={setCode}
      />
      <TaxFields value={tax} onChange={setTax} several={parts.length > 0} />
      {tax.category === 'S' ? <TaxPartsFields parts={parts} onChange={setParts} /> : null}
      <DayField label={t('shop.from')} value={fromDay} onChange={setFromDay} />
      <CalmNote text={t('shop.caution')} />
      <Refusal refusal={set.refusal} />
      <Row>
        <Button kind="go" busy={set.busy} why={why} onPress={() => void add()}>
          {t('shop.addTax')}
        </Button>
      </Row>
    </>
  );
}
