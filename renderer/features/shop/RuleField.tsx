import type { ReactNode } from 'react';
import { DEPOSIT_FORMS, QUOTE_BASES, VOUCHER_FORMS } from '#core/shared/settings/billing.ts';
import { PRICE_RULES } from '#core/shared/settings/estimate.ts';
import type { SettingNote, SettingUnit } from '#core/shared/settings/note.ts';
import { COSTING } from '#core/shared/settings/stock.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Switch } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { ListField } from './ListField.tsx';

export type RuleValue = number | string | boolean | readonly number[] | null;
type Changed = number | string | boolean | number[];

/** What the values of a choice may be, by the rule's name. */
const CHOICES: Readonly<Record<string, readonly string[]>> = {
  'estimate.priceRule': PRICE_RULES,
  'stock.costing': COSTING,
  'billing.depositForm': DEPOSIT_FORMS,
  'billing.quoteBasis': QUOTE_BASES,
  'billing.voucherForm': VOUCHER_FORMS,
};

type Scale = { readonly unit: string; readonly by: number; readonly digits: number };

function scaleOf(unit: SettingUnit, filmUnit: 'um' | 'mil'): Scale {
  switch (unit) {
    case 'filmTenthUm':
      return filmUnit === 'mil' ? { unit: 'mil', by: 254, digits: 2 } : { unit: 'µm', by: 10, digits: 1 };
    case 'mm':
      return { unit: 'mm', by: 1, digits: 0 };
    case 'mmPerSecond':
      return { unit: 'mm/s', by: 1, digits: 0 };
    case 'seconds':
      return { unit: 's', by: 1, digits: 0 };
    case 'minutes':
      return { unit: 'min', by: 1, digits: 0 };
    case 'ul':
      return { unit: 'ml', by: 1000, digits: 3 };
    case 'ppm':
      return { unit: '%', by: 10_000, digits: 4 };
    default:
      return { unit: '', by: 1, digits: 0 };
  }
}

/** One rule: its name, its figure in its unit, and where its default comes from. */
export function RuleField(props: {
  readonly setting: string;
  readonly label: string;
  readonly note: SettingNote;
  /** Where the default comes from; nothing where it is said above all the rules. */
  readonly source: string | undefined;
  readonly value: RuleValue;
  readonly off: string | undefined;
  readonly onChange: (value: Changed) => void;
}): ReactNode {
  const t = useText();
  const { filmUnit } = useManner();
  const { label, source, value, off, onChange } = props;
  if (typeof value === 'boolean')
    return (
      <Switch label={source ? `${label} · ${source}` : label} value={value} onChange={onChange} why={off} />
    );
  if (Array.isArray(value))
    return (
      <ListField key={value.join()} label={label} note={source} value={value} onChange={onChange} off={off} />
    );
  if (typeof value === 'string') {
    const options = (CHOICES[props.setting] ?? [value]).map((v) => {
      const key = `setting.choice.${v}`;
      return { value: v, label: isTextKey(key) ? t(key) : v };
    });
    return (
      <Select label={label} note={source} options={options} value={value} onChange={onChange} off={off} />
    );
  }
  if (typeof value !== 'number') return <TextField label={label} value="" onChange={onChange} off={source} />;
  if (props.note.unit === 'minor')
    return (
      <MoneyField
        label={label}
        note={source}
        value={value}
        off={off}
        onChange={(v) => v !== null && onChange(v)}
      />
    );
  const { unit, by, digits } = scaleOf(props.note.unit, filmUnit);
  const days = props.note.unit === 'days' ? t('shop.days', { count: value }) : '';
  return (
    <NumberField
      label={label}
      note={source}
      unit={unit || days}
      digits={digits}
      value={value / by}
      off={off}
      onChange={(v) => (v === null ? undefined : onChange(Math.round(v * by)))}
    />
  );
}
