import type { ReactNode } from 'react';
import { MATERIAL_UNITS } from '#core/shared/materialUnits.ts';
import { unitWord } from '#core/shared/text/format.ts';
import { BASE_UNITS, MATERIALS } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { asMaterial, type DraftPart, type ItemDraft } from './itemDraft.ts';
import css from './stock.module.css';

/** Everything that is written down of an item, for a new one and to change one. */
export function ItemFields(props: DraftPart): ReactNode {
  return (
    <>
      <What {...props} />
      {props.known ? null : <Opening {...props} />}
      <Keeping {...props} />
      <Safety {...props} />
    </>
  );
}

type TextName = 'name' | 'packWord' | 'place' | 'barcode' | 'hazards' | 'sheet';
type CountName = 'shelfPacks' | 'sealedLifeDays' | 'openedLifeDays' | 'usesPerLife' | 'preference';

function Text(
  props: DraftPart & {
    readonly of: TextName;
    readonly label: string;
    readonly most: number;
    readonly first?: true;
  },
): ReactNode {
  const { of, label, most, draft, set, first } = props;
  const change = (value: string): void => set({ [of]: value } as Partial<ItemDraft>);
  const focus = first ? { autoFocus: true } : {};
  return <TextField label={label} value={draft[of]} onChange={change} maxLength={most} {...focus} />;
}

function Count(
  props: DraftPart & { readonly of: CountName; readonly label: string; readonly hint?: string },
): ReactNode {
  const { of, label, hint, draft, set } = props;
  const change = (value: number | null): void => set({ [of]: value } as Partial<ItemDraft>);
  const least = of === 'preference' ? 0 : 1;
  return <NumberField label={label} hint={hint} value={draft[of]} onChange={change} min={least} />;
}

function What(props: DraftPart): ReactNode {
  const t = useText();
  const manner = useManner();
  const { draft, set, known } = props;
  return (
    <>
      <Text {...props} of="name" label={t('stock.ui.name')} most={120} first />
      <Select
        label={t('stock.ui.material')}
        value={draft.material}
        onChange={(material) => set(known ? { material } : asMaterial(draft, material))}
        options={[
          { value: 'none' as const, label: t('stock.ui.noMaterial') },
          ...MATERIALS.filter((m) => !known || MATERIAL_UNITS[m] === draft.unit).map((value) => ({
            value,
            label: t(`word.material.${value}`),
          })),
        ]}
      />
      <Select
        label={t('stock.ui.unit')}
        value={draft.unit}
        onChange={(unit) => set({ unit, packSize: null, amount: null })}
        options={BASE_UNITS.map((value) => ({
          value,
          label: unitWord(manner, value) || t('stock.ui.pieces'),
        }))}
        off={
          known ? t('stock.ui.fixed') : draft.material === 'none' ? undefined : t('stock.ui.unitOfMaterial')
        }
      />
      <AmountField
        label={t('stock.ui.packSize')}
        unit={draft.unit}
        value={draft.packSize}
        onChange={(packSize) => set({ packSize })}
      />
      <Text {...props} of="packWord" label={t('stock.ui.packWord')} most={30} />
      <Text {...props} of="place" label={t('stock.ui.place')} most={60} />
    </>
  );
}

function Opening({ draft, set }: DraftPart): ReactNode {
  const t = useText();
  return (
    <>
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

function Keeping(props: DraftPart): ReactNode {
  const t = useText();
  const { draft, set, known } = props;
  return (
    <>
      <Text {...props} of="barcode" label={t('stock.ui.barcode')} most={60} />
      <Count {...props} of="shelfPacks" label={t('stock.ui.shelfPacks')} />
      <Count {...props} of="sealedLifeDays" label={t('stock.ui.sealedLife')} />
      <Count {...props} of="openedLifeDays" label={t('stock.ui.openedLife')} />
      <Count
        {...props}
        of="preference"
        label={t('stock.ui.preference')}
        hint={t('stock.ui.preferenceHint')}
      />
      {known ? null : (
        <div className={css['wide']}>
          <Check
            label={t('stock.ui.reusable')}
            value={draft.reusable}
            onChange={(reusable) => set({ reusable, usesPerLife: null })}
          />
        </div>
      )}
      {draft.reusable ? <Count {...props} of="usesPerLife" label={t('stock.ui.uses')} /> : null}
    </>
  );
}

function Safety(props: DraftPart): ReactNode {
  const t = useText();
  return (
    <>
      <Text {...props} of="hazards" label={t('stock.ui.hazards')} most={300} />
      <Text {...props} of="sheet" label={t('stock.ui.sheet')} most={300} />
    </>
  );
}
