/** Things of the price list that stand beside the work of a quote. */
export const quotedThingsTexts = {
  'error.THING_NOT_YET':
    '{kind, select, panel {“{level}, {panel}”} everyPanel {“{level}, any panel”} other {“{name}”}} has no price before {fromDay}. Leave it out, or set a price from today under Shop, Packages and surcharges. No quote was made.',
  'error.THING_ENDED':
    '{kind, select, panel {“{level}, {panel}”} everyPanel {“{level}, any panel”} other {“{name}”}} is not sold since {endedDay}. Leave it out, or set a new price under Shop, Packages and surcharges. No quote was made.',
  'error.THING_MANY':
    '{quantity} × {kind, select, panel {“{level}, {panel}”} everyPanel {“{level}, any panel”} other {“{name}”}} is a lot for one car. No quote was made: put the number right, or quote it knowing that.',
  'error.THING_TOO_MUCH':
    '{quantity} × {kind, select, panel {“{level}, {panel}”} everyPanel {“{level}, any panel”} other {“{name}”}} comes to more than any bill. Put the number or the price of the list right. No quote was made.',
  'error.THING_DISCOUNT':
    '{kind, select, panel {“{level}, {panel}”} everyPanel {“{level}, any panel”} other {“{name}”}} comes to {wholeMinor}, so {discountMinor} cannot be taken off. No quote was made.',
  'error.THING_OTHER_TAX':
    'The price list is {withTax, select, true {with tax and this estimate without} other {without tax and this estimate with it}}. Make the estimate again, then the quote. No quote was made.',
  'error.THING_GOES_ROUND':
    '“{item}” goes round in the shop, as pads and towels do, and is not sold. Choose what is handed over. Nothing was saved.',
  'field.things': 'Things handed over',
  'field.stock': 'Taken from stock',
  'billing.onePanelLine': '{level}, {panel, select, every {by the panel} other {{panel}}}',
  'billing.thingLine':
    '{n, plural, =1 {{text}} other {# × {text}, {each} each}}{off, select, none {} other {, less {off}}}',
  'shop.listStock': 'taken from stock',
  'shop.listStockNote': 'When it is handed over with a car that it was agreed for.',
  'shop.listNoStock': 'from none',
  'shop.listStockAmount': 'how much one of it takes',
  'shop.listTax': 'tax {tax}',
  'shop.listTakes': '{amount} of {item}',
  'quote.things': 'Things that go with it',
  'quote.addThing': 'Add from the price list',
  'quote.thingDiscount': 'Discount in all',
  'quote.thingMany': 'Say how many.',
  'quote.thingGone': 'not sold any more',
  'quote.thingWith': 'with version {version}',
  'quote.without': 'Take out',
  'quote.withoutThing': 'Take out: {name}',
  'quote.thingPanel': 'A panel from the list is work beside the estimate: its hours are not in the plan.',
  'quote.manyMeant': 'So many are meant',
  'handOver.things': 'Agreed beside the work',
  'handOver.thing': '{n} × {text}',
  'handOver.thingsGiven': 'Handed over with the car',
  'handOver.thingsNote': 'What the price list takes from stock leaves it now.',
  'handOver.thingsUnbilled':
    'No work was done, so the bill has none of them. What is taken home all the same leaves the stock now, and is billed by itself.',
  'field.priceId': 'Thing of the price list',
  'field.discountMinor': 'Discount',
  'word.record.listPrice': 'price of the list',
} as const;
