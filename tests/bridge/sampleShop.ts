/** The least that sets up a shop: an invented one. */
export const SHOP = {
  shop: {
    name: 'Lampenhof',
    country: 'AT',
    zone: 'Europe/Vienna',
    currency: 'EUR',
    locale: 'en-GB',
    filmUnit: 'um',
    volumeUnit: 'ml',
    lengthUnit: 'm',
    paper: 'A4',
  },
  owner: { name: 'Marit Vane', pin: '4711' },
} as const;
