import { type ReactNode, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import { BASE_UNITS, type BaseUnit, MATERIALS, type Material } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { go } from '../../ui/router.ts';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './stock.module.css';

type Draft = {
  readonly name: string;
  readonly material: Material | 'none';
  readonly unit: BaseUnit;
  readonly packSize: number | null;
  readonly packWord: string;
  readonly place: string;
  readonly barcode: string;
  readonly hazards: string;
  readonly sheet: string;
  readonly reusable: boolean;
  readonly usesPerLife: number | null;
  readonly shelfPacks: number | null;
  readonly sealedLifeDays: number | null;
  readonly openedLifeDays: number | null;
  readonly amount: number | null;
  readonly valueMinor: number | null;
};
const BLANK: Draft = {
  name: '',
  material: 'none',
  unit: 'ul',
  packSize: null,
  packWord: '',
  place: '',
  barcode: '',
  hazards: '',
  sheet: '',
  reusable: false,
  usesPerLife: null,
  shelfPacks: null,
  sealedLifeDays: null,
  openedLifeDays: null,
  amount: null,
  valueMinor: null,
};

function sent(d: Draft): SentFor<'stock.addItem'> {
  const { amount, valueMinor, material, packSize, packWord, ...rest } = d;
  return {
    ...rest,
    packSize: packSize ?? 0,
    ...(packWord.trim() === '' ? {} : { packWord }),
    material: material === 'none' ? null : material,
    opening: amount === null ? null : { amount, valueMinor: valueMinor ?? 0 },
  };
}

/** Writes down a new item. Keeps what was typed when the core refuses. */
export function NewItem(): ReactNode {
  const t = useText();
  const [draft, setDraft] = useState(BLANK);
  const add = useCommand('stock.addItem');
  const set = (part: Partial<Draft>): void => setDraft({ ...draft, ...part });
  const ready = draft.name.trim() !== '' && draft.packSize !== null && draft.packSize > 0;
  async function save(): Promise<void> {
    const done = await add.run(sent(draft));
    if (done.ok) go(`/stock/items/${done.value.itemId}`);
  }
  return (
    <Place label={t('stock.ui.newItem')}>
      <Column>
        <Stack gap={3}>
          <Head level={1} title={t('stock.ui.newItem')} />
          <div className={css['form']}>
            <What draft={draft} set={set} />
            <Keeping draft={draft} set={set} />
          </div>
          <Refusal refusal={add.refusal} />
          <Row>
            <Button
              kind="go"
              busy={add.busy}
              why={ready ? undefined : t('stock.ui.nameFirst')}
              onPress={() => void save()}
            >
              {t('stock.ui.saveItem')}
            </Button>
            <LinkTo to="/stock">{t('stock.ui.leave')}</LinkTo>
          </Row>
        </Stack>
      </Column>
    </Place>
  );
}

type Part = { readonly draft: Draft; readonly set: (part: Partial<Draft>) => void };

function What({ draft, set }: Part): ReactNode {
  const t = useText();
  return (
    <>
      <TextField
        label={t('stock.ui.name')}
        value={draft.name}
        onChange={(name) => set({ name })}
        maxLength={120}
        autoFocus
      />
      <Select
        label={t('stock.ui.material')}
        value={draft.material}
        onChange={(material) => set({ material })}
        options={[
          { value: 'none' as const, label: t('stock.ui.noMaterial') },
          ...MATERIALS.map((value) => ({ value, label: t(`word.material.${value}`) })),
        ]}
      />
      <Select
        label={t('stock.ui.unit')}
        value={draft.unit}
        onChange={(unit) => set({ unit, packSize: null, amount: null })}
        options={BASE_UNITS.map((value) => ({ value, label: t('stock.ui.unitWord', { unit: value }) }))}
      />
      <AmountField
        label={t('stock.ui.packSize')}
        unit={draft.unit}
        value={draft.packSize}
        onChange={(packSize) => set({ packSize })}
      />
      <TextField
        label={t('stock.ui.packWord')}
        value={draft.packWord}
        onChange={(packWord) => set({ packWord })}
        maxLength={30}
      />
      <TextField
        label={t('stock.ui.place')}
        value={draft.place}
        onChange={(place) => set({ place })}
        maxLength={60}
      />
      <AmountField
        label={t('stock.ui.opening')}
        unit={draft.unit}
        value={draft.amount}
        onChange={(amount) => set({ amount })}
      />
      <MoneyField
        label={t('stock.ui.openingValue')}
        value={draft.valueMinor}
        onChange={(valueMinor) => set({ valueMinor })}
        min={0}
      />
    </>
  );
}

function Keeping({ draft, set }: Part): ReactNode {
  const t = useText();
  return (
    <>
      <TextField
        label={t('stock.ui.barcode')}
        value={draft.barcode}
        onChange={(barcode) => set({ barcode })}
        maxLength={60}
      />
      <NumberField
        label={t('stock.ui.shelfPacks')}
        value={draft.shelfPacks}
        onChange={(shelfPacks) => set({ shelfPacks })}
        min={1}
      />
      <NumberField
        label={t('stock.ui.sealedLife')}
        value={draft.sealedLifeDays}
        onChange={(sealedLifeDays) => set({ sealedLifeDays })}
        min={1}
      />
      <NumberField
        label={t('stock.ui.openedLife')}
        value={draft.openedLifeDays}
        onChange={(openedLifeDays) => set({ openedLifeDays })}
        min={1}
      />
      <TextField
        label={t('stock.ui.hazards')}
        value={draft.hazards}
        onChange={(hazards) => set({ hazards })}
        maxLength={300}
      />
      <TextField
        label={t('stock.ui.sheet')}
        value={draft.sheet}
        onChange={(sheet) => set({ sheet })}
        maxLength={300}
      />
      <div className={css['wide']}>
        <Check
          label={t('stock.ui.reusable')}
          value={draft.reusable}
          onChange={(reusable) => set({ reusable, usesPerLife: null })}
        />
      </div>
      {draft.reusable ? (
        <NumberField
          label={t('stock.ui.uses')}
          value={draft.usesPerLife}
          onChange={(usesPerLife) => set({ usesPerLife })}
          min={1}
        />
      ) : null}
    </>
  );
}
