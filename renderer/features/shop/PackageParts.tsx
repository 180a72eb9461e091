import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { PROTECTIONS, type Protection, WISHES, type Wish } from '#core/shared/views/estimate.ts';
import type { PackageRow, ShopPage } from '#core/shared/views/shop.ts';
import { BODY_STYLES, type BodyStyle } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import css from './shop.module.css';

/** `two-step correction, sealant, with the interior, for saloon, hatch`. */
function extentOf(row: PackageRow, t: Say): string {
  const protection = t('quote.part.protection', { kind: row.protection });
  const bodies = row.bodies.map((body) => t(`word.body.${body}`)).join(', ');
  return [
    t(`word.wish.${row.wish}`),
    protection,
    row.interior ? t('quote.part.interior', { on: 1 }) : '',
    bodies === '' ? '' : t('shop.packageFor', { bodies }),
  ]
    .filter((part) => part !== '')
    .join(', ');
}

export function PackageTable(props: { readonly packages: ShopPage['packages'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.packages.length === 0) return <p className="t1 quiet">{t('shop.noPackages')}</p>;
  return (
    <Table
      label={t('shop.packages')}
      rows={props.packages}
      rowKey={(row) => row.id}
      columns={[
        { key: 'name', head: t('shop.packageName'), cell: (row) => row.name },
        {
          key: 'what',
          head: t('shop.packageWhat'),
          cell: (row) => <span title={extentOf(row, t)}>{extentOf(row, t)}</span>,
        },
        {
          key: 'price',
          head: t('shop.packagePrice'),
          align: 'right',
          cell: (row) => (row.priceMinor === null ? t('shop.packageGone') : money(manner, row.priceMinor)),
        },
        { key: 'from', head: t('shop.from'), cell: (row) => date(manner, row.fromDay) },
        { key: 'now', head: t('shop.holdsHead'), cell: (row) => (row.holds ? t('shop.holds') : '') },
      ]}
    />
  );
}

type Draft = {
  readonly name: string;
  readonly wish: Wish;
  readonly interior: boolean;
  readonly protection: Protection;
  readonly bodies: readonly BodyStyle[];
  readonly priceMinor: number | null;
};
const EMPTY: Draft = {
  name: '',
  wish: 'twoStage',
  interior: false,
  protection: 'sealant',
  bodies: [],
  priceMinor: null,
};

/** What a package still needs before it can be set. */
function lackOf(draft: Draft, ends: boolean, t: Say): string | undefined {
  if (draft.name.trim() === '') return t('shop.packageNeedsName');
  return draft.priceMinor === null && !ends ? t('shop.packageNeedsPrice') : undefined;
}

/** A package, a new price of one, or, without a price, the end of one. */
export function NewPackage(props: { readonly packages: ShopPage['packages'] }): ReactNode {
  const t = useText();
  const set = useCommand('shop.setPackage');
  const isOwner = useMay('owner');
  const [draft, setDraft] = useState<Draft>(EMPTY);
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const ends = draft.priceMinor === null && props.packages.some((p) => p.name === draft.name.trim());
  const lack = lackOf(draft, ends, t);
  async function put(): Promise<void> {
    const day = fromDay ? { fromDay } : {};
    const done = await set.run({ ...draft, bodies: [...draft.bodies], ...day });
    if (done.ok) setDraft(EMPTY);
  }
  return (
    <>
      <TextField
        label={t('shop.packageName')}
        note={t('shop.packageNameNote')}
        value={draft.name}
        maxLength={60}
        onChange={(name) => setDraft({ ...draft, name })}
      />
      <Extent value={draft} onChange={setDraft} />
      <MoneyField
        label={t('shop.packagePrice')}
        note={t('shop.packagePriceNote')}
        min={0}
        value={draft.priceMinor}
        onChange={(priceMinor) => setDraft({ ...draft, priceMinor })}
      />
      <DayField label={t('shop.from')} value={fromDay} onChange={setFromDay} />
      <Refusal refusal={set.refusal} />
      <Row>
        <Button
          kind="go"
          busy={set.busy}
          why={isOwner ? lack : t('shop.onlyOwner')}
          onPress={() => void put()}
        >
          {t(ends ? 'shop.endPackage' : 'shop.addPackage')}
        </Button>
      </Row>
    </>
  );
}

function Extent(props: { readonly value: Draft; readonly onChange: (draft: Draft) => void }): ReactNode {
  const t = useText();
  const { value } = props;
  return (
    <>
      <Select
        label={t('shop.packageWish')}
        options={WISHES.map((wish) => ({ value: wish, label: t(`word.wish.${wish}`) }))}
        value={value.wish}
        onChange={(wish) => props.onChange({ ...value, wish })}
      />
      <Select
        label={t('estimate.protection')}
        options={PROTECTIONS.map((one) => ({ value: one, label: t(`estimate.protection.${one}`) }))}
        value={value.protection}
        onChange={(protection) => props.onChange({ ...value, protection })}
      />
      <Check
        label={t('quote.part.interior', { on: 1 })}
        value={value.interior}
        onChange={(interior) => props.onChange({ ...value, interior })}
      />
      <fieldset className={css['plainSet']}>
        <legend className="t1 quiet">{t('shop.packageBodies')}</legend>
        <Row>
          {BODY_STYLES.map((body) => (
            <Check
              key={body}
              label={t(`word.body.${body}`)}
              value={value.bodies.includes(body)}
              onChange={(on) => {
                const bodies = on ? [...value.bodies, body] : value.bodies.filter((one) => one !== body);
                props.onChange({ ...value, bodies });
              }}
            />
          ))}
        </Row>
      </fieldset>
    </>
  );
}
