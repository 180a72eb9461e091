import type { ReactNode } from 'react';
import type { ItemId } from '#core/shared/ids.ts';
import type { TaxCode } from '#core/shared/tax.ts';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Select } from '../../ui/Select.tsx';

/** Where one of a thing is taken from; null for an amount that is not there yet. */
export type FromStock = { readonly itemId: ItemId; readonly amount: number | null };

/** What is said of a thing beside its price; undefined = as it stands in the list, stock null = from none. */
export type ThingMore = { readonly tax?: TaxCode | undefined; readonly stock?: FromStock | null | undefined };

type Prices = ShopPage['listPrices'];

/** The newest row of the thing of a name. */
export function standingThing(prices: Prices, name: string): Prices[number] | undefined {
  return prices.find((row) => row.kind === 'item' && row.name === name.trim());
}

/** The tax of a thing, where the shop has more than one, and the stock that one of it leaves when it is handed over. */
export function ThingFields(props: {
  readonly standing: Prices[number] | undefined;
  readonly taxes: readonly TaxCode[];
  readonly value: ThingMore;
  readonly onChange: (more: ThingMore) => void;
}): ReactNode {
  const t = useText();
  const { standing, taxes, value, onChange } = props;
  const items = useQuery('stock.listItems', {}).data?.filter((item) => !item.reusable) ?? [];
  const kept = standing?.itemId ? { itemId: standing.itemId, amount: standing.itemQty } : null;
  const stock = value.stock === undefined ? kept : value.stock;
  const item = items.find((one) => one.id === stock?.itemId);
  return (
    <>
      {taxes.length > 1 ? (
        <Select
          label={t('goods.tax')}
          options={taxes.map((code) => ({ value: code, label: t(`shop.code.${code}`) }))}
          value={value.tax ?? standing?.tax ?? 'standard'}
          onChange={(tax) => onChange({ ...value, tax })}
        />
      ) : null}
      {items.length === 0 ? null : (
        <Select<string>
          label={t('shop.listStock')}
          note={t('shop.listStockNote')}
          options={[
            { value: NO_STOCK, label: t('shop.listNoStock') },
            ...items.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          value={stock?.itemId ?? NO_STOCK}
          onChange={(id) => {
            const chosen = items.find((one) => one.id === id);
            const amount = chosen?.unit === 'piece' ? 1 : (chosen?.packSize ?? null);
            onChange({ ...value, stock: chosen ? { itemId: chosen.id, amount } : null });
          }}
        />
      )}
      {stock && item ? (
        <AmountField
          label={t('shop.listStockAmount')}
          unit={item.unit}
          value={stock.amount}
          onChange={(amount) => onChange({ ...value, stock: { itemId: stock.itemId, amount } })}
        />
      ) : null}
    </>
  );
}
const NO_STOCK = 'none';

/** Under a thing in the list: a tax other than the standard one, and what it takes from stock. */
export function ThingSaid(props: { readonly row: Prices[number] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { tax, itemId, itemQty } = props.row;
  const items = useQuery('stock.listItems', { withEnded: true }, { when: itemId !== null }).data;
  const item = items?.find((one) => one.id === itemId);
  const said = [
    ...(tax === 'standard' ? [] : [t('shop.listTax', { tax: t(`shop.code.${tax}`) })]),
    ...(item
      ? [t('shop.listTakes', { amount: amountText(amountOf(manner, item.unit, itemQty)), item: item.name })]
      : []),
  ];
  return said.length === 0 ? null : <span className="t1 dusty"> {said.join(', ')}</span>;
}
