import type { ComponentType } from 'react';
import type { Role } from '#core/shared/roles.ts';
import type { Params } from '../ui/router.ts';

/** The places of the program, in the order of the row on top. */
export const PLACES = ['desk', 'bays', 'jobs', 'stock', 'money', 'figures', 'shop'] as const;
export type PlaceName = (typeof PLACES)[number];

/** What a screen gets: the parts of its path. */
export type ScreenProps = { readonly params: Params };
type Screen = ComponentType<ScreenProps>;

export type Route = {
  /** `/jobs/:jobId/estimate`. The first that fits is shown. */
  readonly path: string;
  /** The place that is marked on top. */
  readonly place: PlaceName | null;
  /** Loaded when first shown. */
  readonly load: () => Promise<Screen>;
  /** bay: large and without places and strip; bare: without places and strip. */
  readonly frame?: 'bay' | 'bare';
  /** Who may open it; everybody who is here where nothing is said. */
  readonly needs?: Role;
  /** Also for nobody in particular. */
  readonly open?: true;
};

/** Every screen. Each owner of a screen adds its line; `/set-up` and `/who` are shown by the gate. */
export const routes: readonly Route[] = [
  {
    path: '/kit',
    place: null,
    open: true,
    frame: 'bare',
    load: async () => (await import('./kit/Kit.tsx')).Kit,
  },
  {
    path: '/bays',
    place: 'bays',
    load: async () => (await import('../features/bays/Bays.tsx')).Bays,
  },
  {
    path: '/desk',
    place: 'desk',
    load: async () => (await import('../features/desk/Desk.tsx')).Desk,
  },
  {
    path: '/jobs',
    place: 'jobs',
    load: async () => (await import('../features/jobs/Jobs.tsx')).Jobs,
  },
  {
    path: '/jobs/:jobId',
    place: 'jobs',
    load: async () => (await import('../features/jobs/JobScreen.tsx')).JobScreen,
  },
  {
    path: '/jobs/:jobId/arrive',
    place: 'jobs',
    load: async () => (await import('../features/jobs/CarRecordForm.tsx')).ArriveScreen,
  },
  {
    path: '/jobs/:jobId/hand-over',
    place: 'jobs',
    load: async () => (await import('../features/jobs/CarRecordForm.tsx')).HandOverScreen,
  },
  {
    path: '/jobs/:jobId/card',
    place: 'jobs',
    frame: 'bay',
    load: async () => (await import('../features/card/Card.tsx')).Card,
  },
  {
    path: '/money',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/Money.tsx')).Money,
  },
  {
    path: '/money/tax',
    place: 'money',
    needs: 'owner',
    load: async () => (await import('../features/billing/TaxScreen.tsx')).TaxScreen,
  },
  {
    path: '/customers/:customerId/statement',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/StatementScreen.tsx')).StatementScreen,
  },
  {
    path: '/customers/:customerId/goods',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/GoodsScreen.tsx')).GoodsScreen,
  },
  {
    path: '/customers/:customerId/collective',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/CollectiveScreen.tsx')).CollectiveScreen,
  },
  {
    path: '/money/till',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/TillScreen.tsx')).TillScreen,
  },
  {
    path: '/money/vouchers',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/VouchersScreen.tsx')).VouchersScreen,
  },
  {
    path: '/money/:invoiceId',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/InvoiceScreen.tsx')).InvoiceScreen,
  },
  {
    path: '/jobs/:jobId/partial',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/PartialScreen.tsx')).PartialScreen,
  },
  {
    path: '/jobs/:jobId/quote',
    place: 'money',
    needs: 'desk',
    load: async () => (await import('../features/billing/QuoteScreen.tsx')).QuoteScreen,
  },
  {
    path: '/jobs/:jobId/inspection',
    place: 'jobs',
    load: async () => (await import('./JobPaint.tsx')).JobPaint,
  },
  {
    path: '/steps',
    place: 'shop',
    load: async () => (await import('../features/paint/StepsScreen.tsx')).StepsScreen,
  },
  {
    path: '/jobs/:jobId/pictures',
    place: 'jobs',
    load: async () => (await import('../features/paint/PicturesScreen.tsx')).PicturesScreen,
  },
  {
    path: '/jobs/:jobId/estimate',
    place: 'jobs',
    load: async () => (await import('../features/estimate/EstimateScreen.tsx')).EstimateScreen,
  },
  {
    path: '/vehicles/:vehicleId/film',
    place: 'jobs',
    load: async () => (await import('../features/paint/FilmHistory.tsx')).FilmHistoryScreen,
  },
  {
    path: '/stock',
    place: 'stock',
    load: async () => (await import('../features/stock/Stock.tsx')).Stock,
  },
  {
    path: '/stock/new',
    place: 'stock',
    load: async () => (await import('../features/stock/NewItem.tsx')).NewItem,
  },
  {
    path: '/stock/arrived',
    place: 'stock',
    needs: 'desk',
    load: async () => (await import('../features/stock/Arrived.tsx')).Arrived,
  },
  {
    path: '/stock/count',
    place: 'stock',
    needs: 'desk',
    load: async () => (await import('../features/stock/CountList.tsx')).CountList,
  },
  {
    path: '/stock/lists',
    place: 'stock',
    needs: 'desk',
    load: async () => (await import('../features/stock/Lists.tsx')).Lists,
  },
  {
    path: '/stock/suppliers',
    place: 'stock',
    load: async () => (await import('../features/stock/Suppliers.tsx')).Suppliers,
  },
  {
    path: '/stock/items/:itemId',
    place: 'stock',
    load: async () => (await import('../features/stock/ItemScreen.tsx')).ItemScreen,
  },
  {
    path: '/stock/orders/:orderId',
    place: 'stock',
    load: async () => (await import('../features/stock/OrderScreen.tsx')).OrderScreen,
  },
  {
    path: '/figures',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/FiguresScreen.tsx')).FiguresScreen,
  },
  {
    path: '/figures/week',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/WeekScreen.tsx')).WeekScreen,
  },
  {
    path: '/figures/hours',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/HoursScreen.tsx')).HoursScreen,
  },
  {
    path: '/figures/honesty',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/HonestyScreen.tsx')).HonestyScreen,
  },
  {
    path: '/figures/money',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/MoneyScreen.tsx')).MoneyScreen,
  },
  {
    path: '/figures/what-if',
    place: 'figures',
    needs: 'owner',
    load: async () => (await import('../features/figures/WhatIfScreen.tsx')).WhatIfScreen,
  },
  {
    path: '/set-up',
    place: null,
    frame: 'bare',
    load: async () => (await import('../features/shop/SetUp.tsx')).SetUp,
  },
  {
    path: '/who',
    place: null,
    frame: 'bare',
    load: async () => (await import('../features/access/Who.tsx')).Who,
  },
  {
    path: '/take-in',
    place: 'desk',
    needs: 'desk',
    load: async () => (await import('./TakeInPlace.tsx')).TakeInPlace,
  },
  {
    path: '/customers/:customerId',
    place: 'jobs',
    needs: 'desk',
    load: async () => (await import('../features/people/CustomerScreen.tsx')).CustomerScreen,
  },
  {
    path: '/vehicles/:vehicleId',
    place: 'jobs',
    load: async () => (await import('../features/people/VehicleScreen.tsx')).VehicleScreen,
  },
  {
    path: '/shop',
    place: 'shop',
    load: async () => (await import('./ShopPlace.tsx')).ShopPlace,
  },
];
