import type { LIST_PRICE_KINDS, PricedLevel } from '#core/shared/listPrices.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import type { Say } from '../../bridge/texts.tsx';
import type { ThingMore } from './ThingFields.tsx';

type Prices = ShopPage['listPrices'];
/** A price as it is typed. */
export type Draft = {
  readonly kind: (typeof LIST_PRICE_KINDS)[number];
  readonly name: string;
  readonly level: PricedLevel;
  readonly panel: PanelId | '';
  readonly priceMinor: number | null;
  readonly fromDay: LocalDay | null;
  readonly more: ThingMore;
};

/** Whether what is typed ends a price, and what it still lacks to be set. */
export function listLacks(
  t: Say,
  prices: Prices,
  draft: Draft,
): { readonly ends: boolean; readonly lacks: string | undefined } {
  const ends = draft.priceMinor === null && stands(prices, draft);
  if (draft.kind === 'item' && draft.name.trim() === '') return { ends, lacks: t('shop.listNeedsName') };
  return { ends, lacks: draft.priceMinor === null && !ends ? t('shop.listNeedsPrice') : undefined };
}

function stands(prices: Prices, { kind, name, level, panel }: Draft): boolean {
  return prices.some((row) =>
    kind === 'item'
      ? row.kind === 'item' && row.name === name.trim()
      : row.kind === 'panel' && row.level === level && row.panel === panel,
  );
}
