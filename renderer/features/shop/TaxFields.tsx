import type { ReactNode } from 'react';
import { TAX_CATEGORIES, type TaxCategory } from '#core/shared/tax.ts';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';

export type TaxDraft = {
  readonly name: string;
  readonly category: TaxCategory;
  readonly ratePpm: number | null;
  readonly reason: string;
};
const PPM_PER_CENT = 10_000;

/** Name, category, rate; whoever charges none says why. */
export function TaxFields(props: {
  readonly value: TaxDraft;
  readonly onChange: (tax: TaxDraft) => void;
  /** Several taxes on one sale have their own rates. */
  readonly several?: boolean;
}): ReactNode {
  const t = useText();
  const { value } = props;
  const taxed = value.category === 'S';
  return (
    <>
      <TextField
        label={t('shop.taxName')}
        value={value.name}
        maxLength={60}
        onChange={(name) => props.onChange({ ...value, name })}
      />
      <Select
        label={t('shop.taxCategory')}
        options={TAX_CATEGORIES.map((c) => ({ value: c, label: t(`shop.category.${c}`), note: c }))}
        value={value.category}
        onChange={(category) =>
          props.onChange({ ...value, category, ratePpm: category === 'S' ? value.ratePpm : 0 })
        }
      />
      {taxed && props.several ? null : taxed ? (
        <NumberField
          label={t('shop.taxRate')}
          unit="%"
          digits={4}
          min={0}
          max={100}
          value={value.ratePpm === null ? null : value.ratePpm / PPM_PER_CENT}
          onChange={(rate) =>
            props.onChange({ ...value, ratePpm: rate === null ? null : Math.round(rate * PPM_PER_CENT) })
          }
        />
      ) : value.category === 'Z' ? null : (
        <TextField
          label={t('shop.taxReason')}
          note={value.category === 'AE' ? t('shop.taxReverseNote') : undefined}
          value={value.reason}
          maxLength={300}
          onChange={(reason) => props.onChange({ ...value, reason })}
        />
      )}
    </>
  );
}
