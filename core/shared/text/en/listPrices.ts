/** Prices of things and of panels. */
export const listPriceTexts = {
  'error.PANEL_UNPRICED':
    'The price list has no price for “{level}” on {panel}. Set one under Shop, Packages and surcharges, or price by hours. No quote was made.',
  'billing.line.panel': 'Work by the panel',
  'billing.panelLine': '{level}, {each} a panel: {panels, select, none {{n} panels} other {{panels}}}',
  'journal.shop.setListPrice': 'set a price of the list: {what}',
  'shop.listPrices': 'Price list',
  'shop.noListPrices':
    'None yet. Things such as a headlight, or panels at what is done to them, can have one price each.',
  'shop.listKind': 'a price of',
  'shop.listKind.item': 'a thing',
  'shop.listKind.panel': 'a panel',
  'shop.listName': 'what it is called',
  'shop.listLevel': 'what is done to it',
  'shop.listPanel': 'which panel',
  'shop.listEvery': 'every panel without one of its own',
  'shop.listPrice': 'price of one',
  'shop.listPriceNote': 'Empty: no longer offered from the day below.',
  'shop.listNeedsName': 'Say first what it is called, as printed.',
  'shop.listNeedsPrice': 'Say first what one costs.',
  'shop.addListPrice': 'Set this price',
  'shop.endListPrice': 'End this price',
  'shop.listNote':
    'A price of a panel stands for all that is done to it and what it takes. Quotes keep the price of their day.',
  'quote.asPanels': 'Estimate {version} by the panel, {price}',
  'goods.fromList': 'From the price list',
  'goods.listItem': '{name}, {price}',
  'field.byPanel': 'priced by the panel',
} as const;
