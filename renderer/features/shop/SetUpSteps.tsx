import type { ReactNode } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote } from '../../ui/States.tsx';
import { type Draft, withCountry } from './draft.ts';
import { CountrySelect, CurrencySelect, WritingSelect } from './PlaceSelects.tsx';
import css from './shop.module.css';
import { UnitFields } from './UnitFields.tsx';

export type StepProps = { readonly draft: Draft; readonly change: (part: Partial<Draft>) => void };

export function ShopStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <TextField
        label={t('shop.name')}
        value={draft.name}
        maxLength={MOST_LETTERS.name}
        onChange={(name) => change({ name })}
        autoFocus
      />
      <TextField
        label={t('shop.address')}
        lines={3}
        value={draft.address}
        maxLength={MOST_LETTERS.address}
        onChange={(address) => change({ address })}
      />
      <TextField
        label={t('shop.phone')}
        kind="tel"
        value={draft.phone}
        maxLength={MOST_LETTERS.phone}
        onChange={(phone) => change({ phone })}
      />
      <TextField
        label={t('shop.email')}
        kind="email"
        value={draft.email}
        maxLength={MOST_LETTERS.email}
        onChange={(email) => change({ email })}
      />
      <TextField
        label={t('shop.taxNumber')}
        value={draft.taxNumber}
        maxLength={MOST_LETTERS.taxNumber}
        onChange={(taxNumber) => change({ taxNumber })}
      />
    </div>
  );
}

export function PlaceStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <CountrySelect
        label={t('shop.countryExample')}
        value={draft.country}
        onChange={(country) => change(withCountry(draft, country))}
      />
      <Select
        label={t('shop.zone')}
        options={Intl.supportedValuesOf('timeZone').map((zone) => ({ value: zone, label: zone }))}
        value={draft.zone}
        onChange={(zone) => change({ zone })}
      />
      <CurrencySelect value={draft.currency} onChange={(currency) => change({ currency })} />
      <WritingSelect
        value={draft.locale}
        country={draft.country}
        currency={draft.currency}
        onChange={(locale) => change({ locale })}
      />
      <UnitFields units={draft} onChange={change} />
      <CalmNote text={t('shop.caution')} />
    </div>
  );
}
