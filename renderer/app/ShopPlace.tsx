import type { ReactNode } from 'react';
import { Steps } from '../features/paint/StepsScreen.tsx';
import { Shop } from '../features/shop/Shop.tsx';

/** The Shop place, with the parts that other areas bring to it. */
export function ShopPlace(): ReactNode {
  return <Shop steps={<Steps />} />;
}
