import type { ReactNode } from 'react';
import type { TaxCode } from '#core/shared/tax.ts';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import css from './billing.module.css';

/** A line as it is typed; null for a figure that is not there yet. */
export type Line = {
  readonly text: string;
  readonly quantity: number | null;
  readonly priceMinor: number | null;
  readonly tax: TaxCode;
};
export const EMPTY_LINE: Line = { text: '', quantity: 1, priceMinor: null, tax: 'standard' };

/** What is sold, how many, at what price each, and its tax where the shop has more than one. */
export function GoodsLine(props: {
  readonly line: Line;
  readonly taxes: readonly TaxCode[];
  readonly onChange: (line: Line) => void;
}): ReactNode {
  const t = useText();
  const { line, taxes, onChange } = props;
  return (
    <div className={css['goodsLine']}>
      <TextField
        label={t('goods.text')}
        value={line.text}
        onChange={(text) => onChange({ ...line, text })}
        maxLength={300}
        autoFocus
      />
      <NumberField
        label={t('goods.quantity')}
        value={line.quantity}
        onChange={(quantity) => onChange({ ...line, quantity })}
        min={1}
      />
      <MoneyField
        label={t('goods.price')}
        value={line.priceMinor}
        onChange={(priceMinor) => onChange({ ...line, priceMinor })}
        min={0}
      />
      {taxes.length > 1 ? (
        <Select
          label={t('goods.tax')}
          options={taxes.map((value) => ({ value, label: t(`shop.code.${value}`) }))}
          value={line.tax}
          onChange={(tax) => onChange({ ...line, tax })}
        />
      ) : null}
    </div>
  );
}
