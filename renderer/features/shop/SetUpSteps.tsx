import type { ReactNode } from 'react';
import { COUNTRY_EXAMPLES } from '#core/shared/examples.ts';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote } from '../../ui/States.tsx';
import { type Draft, withCountry } from './draft.ts';
import css from './shop.module.css';
import { UnitFields } from './UnitFields.tsx';

export type StepProps = { readonly draft: Draft; readonly change: (part: Partial<Draft>) => void };

export function ShopStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <TextField label={t('shop.name')} value={draft.name} onChange={(name) => change({ name })} autoFocus />
      <TextField
        label={t('shop.address')}
        lines={3}
        value={draft.address}
        onChange={(address) => change({ address })}
      />
      <TextField
        label={t('shop.phone')}
        kind="tel"
        value={draft.phone}
        onChange={(phone) => change({ phone })}
      />
      <TextField
        label={t('shop.email')}
        kind="email"
        value={draft.email}
        onChange={(email) => change({ email })}
      />
      <TextField
        label={t('shop.taxNumber')}
        value={draft.taxNumber}
        onChange={(taxNumber) => change({ taxNumber })}
      />
    </div>
  );
}

const OTHER = '??';

export function PlaceStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  const named = new Intl.DisplayNames(['en'], { type: 'region' });
  const countries = COUNTRY_EXAMPLES.map((e) => ({
    value: e.country,
    label: named.of(e.country) ?? e.country,
    note: e.currency,
  }));
  const known = COUNTRY_EXAMPLES.some((e) => e.country === draft.country);
  return (
    <div className={css['form']}>
      <Select
        label={t('shop.countryExample')}
        options={[...countries, { value: OTHER, label: t('shop.countryOther') }]}
        value={known ? draft.country : OTHER}
        onChange={(c) => change(c === OTHER ? { country: '' } : withCountry(draft, c))}
      />
      {known ? null : (
        <TextField
          label={t('shop.countryCode')}
          value={draft.country}
          maxLength={2}
          onChange={(country) => change({ country: country.toUpperCase() })}
        />
      )}
      <Select
        label={t('shop.zone')}
        options={Intl.supportedValuesOf('timeZone').map((zone) => ({ value: zone, label: zone }))}
        value={draft.zone}
        onChange={(zone) => change({ zone })}
      />
      <TextField
        label={t('shop.currency')}
        value={draft.currency}
        maxLength={3}
        onChange={(currency) => change({ currency: currency.toUpperCase() })}
      />
      <UnitFields units={draft} onChange={change} />
      <CalmNote text={t('shop.caution')} />
    </div>
  );
}
