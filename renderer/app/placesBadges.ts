import { useMoneyNeeds } from '../features/billing/useMoneyNeeds.ts';
import { useDeskNeeds } from '../features/desk/useDeskNeeds.ts';
import { useStockNeeds } from '../features/stock/useStockNeeds.ts';
import type { PlaceName } from './routes.tsx';

/**
 * How many things need somebody in a place, shown lit beside its word. Each is a hook, always called, that
 * answers undefined while it does not know or where the person may not ask.
 */
export const placesBadges: Readonly<Partial<Record<PlaceName, () => number | undefined>>> = {
  desk: useDeskNeeds,
  stock: useStockNeeds,
  money: useMoneyNeeds,
};
