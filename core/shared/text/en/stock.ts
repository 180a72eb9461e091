/** Items, draws, pads, orders. */
export const stockTexts = {
  'error.BARCODE_TAKEN':
    'Barcode {barcode} belongs to {item} already. Scan again, or take it off there first.',
  'error.ITEM_NAME_TAKEN': 'There is an item called {item} already. Open that one, or choose another name.',
  'error.REUSABLE_IN_PIECES':
    '{item} goes round clean, dirty and washed, so it is counted in pieces. Choose pieces as its unit.',
  'error.MATERIAL_UNIT':
    'Stages ask for this material in {needs, select, ul {volume} mg {weight} mm {length} other {pieces}}, so {item} can’t be kept in {unit, select, ul {volume} mg {weight} mm {length} other {pieces}}. Nothing was saved.',
  'error.ABOVE_ORDER':
    '{item}: {ordered} packs were ordered, {before} came before, now {now} more. Check the delivery note; say yes if they are to be kept. Nothing is booked in yet.',
  'error.OTHER_PACK':
    '{item} came in another pack than ordered. Check the label; say yes if the new pack is right. Nothing is booked in yet.',
  'error.ORDER_NOT_OPEN': 'Order {number} is complete or given up. Book the delivery in without an order.',
  'error.LINE_OF_OTHER_ORDER': '{item} belongs to another order or another line. Look the order up again.',
  'error.NOT_SOLD_BY': '{supplier} has no price for {item} here. Add pack and price first.',
  'error.PADS_NOT_THERE':
    '{item}: {asked} asked, but {has} {state, select, clean {clean} inUse {in use} dirty {dirty} washing {in the wash} other {there}}. Count them if that is wrong.',
  'error.NOT_REUSABLE': '{item} is used up, it does not go round. Book it as a draw or as waste.',
  'error.RETIRE_INSTEAD': '{item} goes round. Retire worn pieces, so that the round and the book agree.',
  'error.MORE_THAN_THERE': 'The book has less {item} than that. Count it first; nothing was booked.',
  'error.BREAKS_NOT_RISING':
    'The price breaks of {item} must rise in packs, each once. Put them in order; nothing was saved.',
  'error.NOT_A_DRAW': 'Only what a job drew can be corrected here. For the rest count the item.',
  'error.LATER_IS_PAST': '{untilDay} is not ahead. Choose a later day.',
  'error.COUNT_AHEAD':
    'The count of {item} stands beside a ledger line that is not there. Open the count again.',
  'error.ITEM_IN_USE':
    '{item} has been booked already, so its unit can’t change. End it and write down a new item.',
  'error.IMPORT_FAULTS':
    'Line {line} of the list does not fit in {field}{faults, plural, one {} other {, and # places in all}}. Nothing was taken over; look at the check first.',

  'stock.say.booked':
    'Order {order} {item}. Booked jobs draw {booked} by {byDay}; {left} is left, so it runs out {runOutDay}.',
  'stock.say.low':
    'Order {order} {item}. {left} is left; with {booked} booked by {byDay} and the usual work it falls below the {safety} kept back on {belowDay}.',
  'stock.say.usual':
    'Order {order} {item}. {left} is left; the usual {perWeek} a week takes it below the {safety} kept back on {belowDay}.',
  'stock.say.shut':
    'Order {order} {item}. {left} lasts to {belowDay}, but {supplier} next takes orders {nextDay}, to be here {nextArrival}.',
  'stock.say.empty': 'Order {order} {item}. Nothing is left by the book; {perWeek} a week is usual.',
  'stock.say.pads':
    'Order {order} {item}. {customer} needs {needs} on {day}; {has} are clean, and washing all of them is not enough.',
  'stock.say.padsWorn': 'Order {order} {item}. {usable} are left in the round, {needs} are needed on {day}.',

  'stock.conflict.shelf': 'The shelf takes {shelf} packs; the need is {need}.',
  'stock.conflict.life': 'Sealed it keeps {days} days, which is {amount} at the usual use; the need is more.',
  'stock.conflict.opened':
    'Opened it keeps {days} days; a pack lasts longer than that. A smaller pack would waste less.',
  'stock.conflict.minimum': '{missing} below the smallest order of {supplier}.',

  'stock.in.onHand': 'On hand by the book',
  'stock.in.onOrder': 'On order, here by then',
  'stock.in.reserved': 'Booked jobs draw by then',
  'stock.in.position': 'Position: on hand + on order − booked',
  'stock.in.usualByThen': 'Usual use by then that is not booked yet',
  'stock.in.perDay': 'Usual use a day, all days',
  'stock.in.history': 'Days of history behind it',
  'stock.in.arrives': 'Ordered today it is here',
  'stock.in.arrivesNext': 'Ordered on the next ordering day it is here',
  'stock.in.leadSpread': 'Lead time strays by, days',
  'stock.in.safety': 'Kept back against both spreads',
  'stock.in.reorderPoint': 'Reorder point: usual use by then + kept back',
  'stock.in.level': 'Chance of not running out meanwhile, %',
  'stock.in.shortfall': 'Missing to two weeks after arrival',
  'stock.in.economic': 'Economic quantity',
  'stock.in.shelf': 'Room on the shelf',
  'stock.in.life': 'Used before it expires',
  'stock.in.price': 'Price of a pack',
  'stock.in.packs': 'Packs',
  'stock.in.clean': 'Clean',
  'stock.in.round': 'Clean, in use, dirty and washing',
  'stock.in.usesPerLife': 'Uses a piece lasts',
  'stock.in.learnedFrom': 'Retired pieces behind it',
  'stock.in.lacking': 'Pieces missing though washed every night',

  'stock.rule.reorder':
    'Order today when a later order would come only after the expected stock fell below what is kept back: z · √(variance of use + use² · variance of lead time). Quantity: the larger of economic quantity and shortfall, at most what is used before it expires and what the shelf takes, in whole packs, lifted to a price break that makes the year cheaper.',
  'stock.rule.rare':
    'The item is used on few days, so what is kept back comes from drawing past days at random, not from a normal spread; the mean is Croston’s with the correction of Syntetos and Boylan. Quantity as for all items.',
  'stock.rule.pads':
    'Pieces go round: clean, dirty, washed overnight. Order when a day needs more than can be clean by then. Life is uses over retirements.',
  'stock.rule.enough': 'Nothing to order: an order on the next ordering day still comes in time.',
  'stock.rule.noSupplier': 'Nobody is written down who sells this item, so nothing is suggested.',
  'stock.source.reorder':
    'Silver, Pyke & Peterson; Snyder & Shen, Fundamentals of Supply Chain Theory; Harris (1913). Spread of booked draws 25 % and two weeks’ cover: common practice, no source.',
  'stock.source.rare': 'Croston (1972); Syntetos & Boylan (2005), cut-off 1.32.',
  'stock.source.pads': 'Common practice, no source; life by maximum likelihood.',

  'stock.file.order': 'Purchase order {number}',
  'stock.file.item': 'item',
  'stock.file.code': 'your number',
  'stock.file.pack': 'pack',
  'stock.file.packs': 'packs',
  'stock.file.price': 'price a pack',
  'stock.file.sum': 'sum',
  'stock.file.total': 'Total before tax',
  'stock.file.to': 'To',
  'stock.file.day': 'Ordered {day}, wanted by {due}.',
} as const;
