import type { ReactNode } from 'react';
import type { BaseUnit } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import type { Came } from './came.ts';
import css from './stock.module.css';

/** Pack, price, batch and best-before day of what came. */
export function CameFields(props: {
  readonly unit: BaseUnit;
  readonly came: Came;
  readonly onCame: (came: Came) => void;
}): ReactNode {
  const t = useText();
  const { unit, came, onCame } = props;
  return (
    <div className={css['cameFields']}>
      <AmountField
        label={t('stock.ui.packSize')}
        unit={unit}
        value={came.packSize === 0 ? null : came.packSize}
        onChange={(packSize) => onCame({ ...came, packSize: packSize ?? 0 })}
      />
      <MoneyField
        label={t('stock.ui.price')}
        value={came.priceMinor}
        onChange={(priceMinor) => onCame({ ...came, priceMinor })}
        min={0}
      />
      <TextField
        label={t('stock.ui.batch')}
        value={came.batch}
        onChange={(batch) => onCame({ ...came, batch })}
        maxLength={60}
      />
      <DayField
        label={t('stock.ui.bestBefore')}
        value={came.bestBefore}
        onChange={(bestBefore) => onCame({ ...came, bestBefore })}
      />
    </div>
  );
}
