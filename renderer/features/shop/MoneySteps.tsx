import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Check } from '../../ui/Choice.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { CalmNote } from '../../ui/States.tsx';
import type { StepProps } from './SetUpSteps.tsx';
import css from './shop.module.css';
import { TaxFields } from './TaxFields.tsx';

export function PriceStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <MoneyField
        label={t('shop.hourPrice')}
        value={draft.hourMinor}
        min={0}
        currency={draft.currency}
        onChange={(hourMinor) => change({ hourMinor })}
        autoFocus
      />
      <Check
        label={t('setting.billing.pricesIncludeTax')}
        value={draft.pricesIncludeTax}
        onChange={(pricesIncludeTax) => change({ pricesIncludeTax })}
      />
      <p className="t1 dusty">{t('shop.hourPriceNote')}</p>
    </div>
  );
}

export function TaxStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['form']}>
      <TaxFields
        value={{
          name: draft.taxName,
          category: draft.taxCategory,
          ratePpm: draft.taxPpm,
          reason: draft.taxReason,
        }}
        onChange={(tax) =>
          change({
            taxName: tax.name,
            taxCategory: tax.category,
            taxPpm: tax.ratePpm,
            taxReason: tax.reason,
          })
        }
      />
      <CalmNote text={t('shop.caution')} />
    </div>
  );
}
