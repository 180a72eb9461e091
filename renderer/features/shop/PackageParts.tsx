import { type ReactNode, useState } from 'react';
import { packageNamed } from '#core/shared/packages.ts';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { PROTECTIONS, WISHES } from '#core/shared/views/estimate.ts';
import type { PackageRow, ShopPage } from '#core/shared/views/shop.ts';
import { BODY_STYLES, type BodyStyle } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText, useToday } from '../../bridge/texts.tsx';
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

type ExtentOf = Pick<PackageRow, 'wish' | 'interior' | 'protection' | 'bodies'>;
/** What a new package is for until something is chosen. */
const NEW: ExtentOf = { wish: 'twoStage', interior: false, protection: 'sealant', bodies: [] };
type Draft = {
  readonly name: string;
  /** Null = that of the package of this name. */
  readonly extent: ExtentOf | null;
  readonly priceMinor: number | null;
};
const EMPTY: Draft = { name: '', extent: null, priceMinor: null };

/** What a package still needs before it can be set. */
function lackOf(draft: Draft, ends: boolean, t: Say): string | undefined {
  if (draft.name.trim() === '') return t('shop.packageNeedsName');
  if (draft.priceMinor === 0) return t('shop.packageNeedsMore');
  return draft.priceMinor === null && !ends ? t('shop.packageNeedsPrice') : undefined;
}

/** What is sent of the work: nothing where it stays as it is. */
function sentExtent(draft: Draft, known: boolean): SentExtent | Record<string, never> {
  const extent = draft.extent ?? (known ? null : NEW);
  return extent ? { ...extent, bodies: [...extent.bodies] } : {};
}
type SentExtent = Omit<ExtentOf, 'bodies'> & { readonly bodies: BodyStyle[] };

/** A package, a new price of one, or, without a price, the end of one. */
export function NewPackage(props: { readonly packages: ShopPage['packages'] }): ReactNode {
  const t = useText();
  const today = useToday();
  const set = useCommand('shop.setPackage');
  const isOwner = useMay('owner');
  const [draft, setDraft] = useState<Draft>(EMPTY);
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const named = (name: string) => packageNamed(props.packages, name.trim(), fromDay ?? today);
  const standing = named(draft.name);
  const ends = draft.priceMinor === null && standing !== undefined;
  const lack = lackOf(draft, ends, t);
  async function put(): Promise<void> {
    const { name, priceMinor } = draft;
    const day = fromDay ? { fromDay } : {};
    const done = await set.run({ name, priceMinor, ...sentExtent(draft, standing !== undefined), ...day });
    if (done.ok) setDraft(EMPTY);
  }
  return (
    <>
      <TextField
        label={t('shop.packageName')}
        note={t('shop.packageNameNote')}
        value={draft.name}
        maxLength={60}
        onChange={(name) => setDraft({ ...draft, name, extent: named(name) ? null : draft.extent })}
      />
      <Extent value={draft.extent ?? standing ?? NEW} onChange={(extent) => setDraft({ ...draft, extent })} />
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

/** What a package is for: work, protection, inside, bodies. */
function Extent(props: {
  readonly value: ExtentOf;
  readonly onChange: (extent: ExtentOf) => void;
}): ReactNode {
  const t = useText();
  const { wish, interior, protection, bodies } = props.value;
  const value: ExtentOf = { wish, interior, protection, bodies };
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
                const chosen = on ? [...bodies, body] : bodies.filter((one) => one !== body);
                props.onChange({ ...value, bodies: chosen });
              }}
            />
          ))}
        </Row>
      </fieldset>
    </>
  );
}
