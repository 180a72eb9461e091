import { type ReactNode, useState } from 'react';
import { money, rate } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { CHARGE_KINDS, type ChargeKind, type ChargeRow, type ShopPage } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { ListPrices } from './ListPrices.tsx';
import { NewPackage, PackageTable } from './PackageParts.tsx';
import css from './shop.module.css';

const PPM_PER_CENT = 10_000;

function chargeText(row: ChargeRow, manner: Manner, t: Say): string {
  if (row.kind === 'minimum')
    return row.amountMinor === 0 ? t('shop.chargeNone') : money(manner, row.amountMinor);
  return row.sharePpm === 0 ? t('shop.chargeNone') : `+${amountText(rate(manner, row.sharePpm))}`;
}

/** Packages, the minimum charge of a job, and surcharges: dated like the prices of hours. */
export function ChargesPart(props: { readonly page: ShopPage }): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <Head level={3} title={t('shop.packages')} />
      <PackageTable packages={props.page.packages} />
      <NewPackage packages={props.page.packages} />
      <ListPrices prices={props.page.listPrices} taxes={props.page.taxes} />
      <Head level={3} title={t('shop.charges')} />
      <ChargeTable charges={props.page.charges} />
      <NewCharge />
      <CalmNote text={t('shop.chargeCaution')} />
    </div>
  );
}

function ChargeTable(props: { readonly charges: ShopPage['charges'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.charges.length === 0) return <p className="t1 quiet">{t('shop.noCharges')}</p>;
  return (
    <Table
      label={t('shop.charges')}
      rows={props.charges}
      rowKey={(row) => row.id}
      columns={[
        { key: 'kind', head: t('shop.for'), cell: (row) => t(`shop.charge.${row.kind}`) },
        {
          key: 'much',
          head: t('shop.chargeHead'),
          align: 'right',
          cell: (row) => chargeText(row, manner, t),
        },
        { key: 'from', head: t('shop.from'), cell: (row) => date(manner, row.fromDay) },
        { key: 'now', head: t('shop.holdsHead'), cell: (row) => (row.holds ? t('shop.holds') : '') },
      ]}
    />
  );
}

function NewCharge(): ReactNode {
  const t = useText();
  const set = useCommand('shop.setCharge');
  const isOwner = useMay('owner');
  const [kind, setKind] = useState<ChargeKind>('minimum');
  const [value, setValue] = useState<number | null>(null);
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const day = fromDay ? { fromDay } : {};
  const why = isOwner ? (value === null ? t('shop.setUp.open') : undefined) : t('shop.onlyOwner');
  const put = () =>
    kind === 'minimum'
      ? set.run({ kind, amountMinor: value ?? 0, ...day })
      : set.run({ kind, sharePpm: Math.round((value ?? 0) * PPM_PER_CENT), ...day });
  return (
    <>
      <Select
        label={t('shop.for')}
        options={CHARGE_KINDS.map((one) => ({ value: one, label: t(`shop.charge.${one}`) }))}
        value={kind}
        onChange={(one) => {
          setKind(one);
          setValue(null);
        }}
      />
      {kind === 'minimum' ? (
        <MoneyField label={t('shop.chargeLeast')} min={0} value={value} onChange={setValue} />
      ) : (
        <NumberField
          label={t('shop.chargeShare')}
          unit="%"
          digits={2}
          min={0}
          max={500}
          value={value}
          onChange={setValue}
        />
      )}
      <DayField label={t('shop.from')} value={fromDay} onChange={setFromDay} />
      <Refusal refusal={set.refusal} />
      <Row>
        <Button kind="go" busy={set.busy} why={why} onPress={() => void put()}>
          {t('shop.addCharge')}
        </Button>
      </Row>
    </>
  );
}
