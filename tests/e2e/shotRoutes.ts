/** Every screen that is captured. `:jobId` and its like are filled from the data folder; a screen without is skipped. */
export type ShotRoute = {
  readonly name: string;
  readonly path: string;
  /** Waits for this text or element where the screen is drawn in steps. */
  readonly ready?: string;
};

export const SHOT_ROUTES: readonly ShotRoute[] = [
  { name: 'kit', path: '/kit' },
  { name: 'who', path: '/who' },
  { name: 'desk', path: '/desk' },
  { name: 'take-in', path: '/take-in' },
  { name: 'bays', path: '/bays' },
  { name: 'jobs', path: '/jobs' },
  { name: 'job', path: '/jobs/:jobId' },
  { name: 'arrive', path: '/jobs/:bookedId/arrive' },
  { name: 'hand-over', path: '/jobs/:readyId/hand-over' },
  { name: 'inspection', path: '/jobs/:jobId/inspection' },
  { name: 'steps', path: '/steps' },
  { name: 'pictures', path: '/jobs/:jobId/pictures' },
  { name: 'estimate', path: '/jobs/:jobId/estimate' },
  { name: 'quote', path: '/jobs/:jobId/quote' },
  { name: 'partial', path: '/jobs/:jobId/partial' },
  { name: 'card', path: '/jobs/:jobId/card' },
  { name: 'customer', path: '/customers/:customerId' },
  { name: 'vehicle', path: '/vehicles/:vehicleId' },
  { name: 'film', path: '/vehicles/:vehicleId/film' },
  { name: 'stock', path: '/stock' },
  { name: 'stock-item', path: '/stock/items/:itemId' },
  { name: 'stock-order', path: '/stock/orders/:orderId' },
  { name: 'stock-count', path: '/stock/count' },
  { name: 'stock-new', path: '/stock/new' },
  { name: 'suppliers', path: '/stock/suppliers' },
  { name: 'money', path: '/money' },
  { name: 'tax', path: '/money/tax' },
  { name: 'statement', path: '/customers/:customerId/statement' },
  { name: 'goods', path: '/customers/:customerId/goods' },
  { name: 'collective', path: '/customers/:customerId/collective' },
  { name: 'till', path: '/money/till' },
  { name: 'vouchers', path: '/money/vouchers' },
  { name: 'invoice', path: '/money/:invoiceId' },
  { name: 'figures', path: '/figures' },
  { name: 'figures-week', path: '/figures/week', ready: 'text=Sums are what hangs on a thing' },
  { name: 'figures-hours', path: '/figures/hours', ready: 'text=In use:' },
  { name: 'figures-honesty', path: '/figures/honesty', ready: 'text=the whole shop' },
  { name: 'figures-money', path: '/figures/money', ready: 'text=Owed, held, redone, again' },
  { name: 'what-if', path: '/figures/what-if' },
  { name: 'shop', path: '/shop' },
];

export const SHOT_SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
] as const;
export const SHOT_THEMES = ['dark', 'light'] as const;
