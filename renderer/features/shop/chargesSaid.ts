import { CHARGE_KINDS, type ShopPage } from '#core/shared/views/shop.ts';
import type { Say } from '../../bridge/texts.tsx';

/** The packages and charges that hold today, named in one line. */
export function chargesSaid({ packages, charges }: ShopPage, t: Say): string {
  const count = packages.filter((p) => p.holds && p.priceMinor !== null).length;
  const set = CHARGE_KINDS.filter((kind) =>
    charges.some((c) => c.kind === kind && c.holds && (c.amountMinor > 0 || c.sharePpm > 0)),
  );
  const named = [
    ...(count > 0 ? [t('shop.say.packages', { count })] : []),
    ...set.map((kind) => t(`shop.charge.${kind}`)),
  ];
  return named.join(', ') || t('shop.say.noCharges');
}
