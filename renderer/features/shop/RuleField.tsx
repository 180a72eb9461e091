import type { ReactNode } from 'react';
import type { SettingNote } from '#core/shared/settings/note.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Switch } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { ListField } from './ListField.tsx';
import { choicesOf, type RuleValue, scaleOf } from './ruleWords.ts';
import { TypedField } from './TypedField.tsx';

type Changed = number | string | boolean | readonly number[];

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
    return <ListField label={label} note={source} value={value} onChange={onChange} off={off} />;
  if (props.note.unit === 'text' && typeof value === 'string')
    return <TypedField label={label} note={source} stored={value} onDone={onChange} off={off} />;
  if (typeof value === 'string') {
    const options = choicesOf(props.setting, value, t);
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
        saves
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
      saves
      onChange={(v) => (v === null ? undefined : onChange(Math.round(v * by)))}
    />
  );
}
