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
    '{item}: {ordered, plural, one {# pack was} other {# packs were}} ordered, {before} came before, now {now} more. Check the delivery note; say yes if they are to be kept. Nothing was put in stock yet.',
  'error.OTHER_PACK':
    '{item} came in another pack than ordered; by its amount it makes {counts} of the {due, plural, one {# pack} other {# packs}} due. Check the label; say yes if the new pack is right. Nothing was put in stock yet.',
  'error.PRICE_UNLIKELY':
    '{item}: {agreedMinor} a pack was agreed, the delivery says {cameMinor}. Check the delivery note; say yes if the price is right. Nothing was put in stock yet.',
  'error.COUNT_UNLIKELY':
    'That is far more {item} than the book says. Was a barcode read into this field, or a unit mixed up? Say yes if so much is there. Nothing was saved.',
  'error.TOO_MANY_PIECES':
    '{item}{material}: more than 10,000 pieces at once. Was a barcode read into this field? Nothing was saved.',
  'error.ORDER_NOT_OPEN': 'Order {number} is complete or given up. Put the goods in stock without an order.',
  'error.LINE_OF_OTHER_ORDER': '{item} belongs to another order or another line. Look the order up again.',
  'error.NOT_SOLD_BY': '{supplier} has no price for {item} here. Add pack and price first.',
  'error.PADS_NOT_THERE':
    '{item}: {asked} asked, but {has} {state, select, clean {clean} dirty {dirty} washing {in the wash} other {there}}. Count them if that is wrong.',
  'error.NOT_REUSABLE': '{item} is used up, it does not go round. Write it down as used or as waste.',
  'error.RETIRE_INSTEAD':
    '{item} goes round. Retire worn pieces, so that the round and the stock list agree.',
  'error.MORE_THAN_THERE': 'The stock list has less {item} than that. Count it first; nothing was taken out.',
  'error.BREAKS_NOT_RISING':
    'The price breaks of {item} must rise in packs, each once. Put them in order; nothing was saved.',
  'error.USE_SETTLED': 'This use was taken from an item or removed already. Nothing was changed.',
  'error.USE_OTHER_MATERIAL':
    '{item} is not used in stages as {material}. Choose an item that is, or say so under the item first.',
  'error.NOT_A_DRAW': 'Only what a job drew can be corrected here. For the rest count the item.',
  'error.SHEET_TOO_LARGE': 'That file is too large; up to {mostMb} MB fit.',
  'error.SHEET_UNREADABLE': 'That is not a PDF, JPEG or PNG file. Nothing was kept.',
  'error.DUE_IS_PAST': '{dueDay} has gone by. Choose today or a later day.',
  'error.LATER_IS_PAST': '{untilDay} is not ahead. Choose a later day.',
  'error.COUNT_AHEAD':
    'The count of {item} stands beside a ledger line that is not there. Open the count again.',
  'error.IMPORT_FAULTS':
    'Line {line} of the list does not fit: {field}{faults, plural, one {} other {, and # places in all}}. Nothing was taken over; look at the check first.',

  'field.inLine': '{field} in line {line}',
  'field.name': 'Name',
  'field.material': 'Material',
  'field.unit': 'Unit',
  'field.reusable': 'Goes round',
  'field.packSize': 'Pack size',
  'field.packWord': 'Word for a pack',
  'field.packs': 'Number of packs',
  'field.place': 'Place',
  'field.shelfPacks': 'Packs the shelf takes',
  'field.sealedLifeDays': 'Days it keeps sealed',
  'field.openedLifeDays': 'Days it keeps opened',
  'field.hazards': 'Hazards',
  'field.sheet': 'Safety data sheet',
  'field.barcode': 'Barcode',
  'field.usesPerLife': 'Uses a piece lasts',
  'field.preference': 'Order of preference',
  'field.amount': 'Amount',
  'field.counted': 'Counted amount',
  'field.pieces': 'Number of pieces',
  'field.priceMinor': 'Price',
  'field.valueMinor': 'Value',
  'field.breaks': 'Price breaks',
  'field.fromPacks': 'Packs from which a price holds',
  'field.batch': 'Batch',
  'field.bestBefore': 'Best before',
  'field.email': 'E-mail',
  'field.leadDays': 'Working days to delivery',
  'field.openWeekdays': 'Weekdays the supplier works',
  'field.closedDays': 'Days the supplier is shut',
  'field.minOrderMinor': 'Smallest order',
  'field.untilDay': 'Day',
  'field.calledAs': 'Name of the file',
  'field.sheetBase64': 'The data sheet',
  'field.dueDay': 'Expected day',
  'field.why': 'Reason',
  'field.csv': 'The list',
  'problem.sameNameAbove': 'the same name is in line {limit}',
  'problem.noList':
    'this is not a list of values between commas or semicolons, with the columns in its first line',
  'problem.columnTwice': 'this column is there twice',
  'problem.columnUnnamed': 'one of its columns has no name in the first line; name it or take it out',
  'problem.notUtf8': 'it holds letters that cannot be read; save the list as CSV in UTF-8',
  'problem.moreCells':
    'it has more cells than the first line has columns; a figure or a name with a comma in it needs quotes round it',
  'problem.materialUnit': 'stages ask for this material in {limit}',
  'problem.roundInPieces': 'what goes round is counted in pieces: write piece',
  'problem.barcodeOf': 'it belongs to {limit}',
  'problem.barcodeOfEnded':
    'it belongs to {limit}, which is no longer kept; scan it in Stock to keep that again or to take the barcode off it',
  'problem.codeRounded':
    'a spreadsheet has made a rounded figure of it and its last digits are gone; give the column the format text and fill it in again',
  'problem.unitFixed': 'unit and going round can’t change once the item is written down',

  'stock.say.booked':
    'Order {order} {item}. Booked jobs draw {booked} by {byDay}; {under, select, yes {the stock list is {left} short already} none {nothing is left by the stock list} other {the shelf has {left}, so it runs out {runOutDay}}}.',
  'stock.say.low':
    'Order {order} {item}. {under, select, yes {The stock list is {left} short} other {The shelf has {left}}}; with {booked} booked by {byDay} and the usual work it falls below the {safety} kept back on {belowDay}.',
  'stock.say.usual':
    'Order {order} {item}. {under, select, yes {The stock list is {left} short} other {The shelf has {left}}}; the usual {perWeek} a week takes it below the {safety} kept back on {belowDay}.',
  'stock.say.usualOut':
    'Order {order} {item}. {under, select, yes {The stock list is {left} short} other {The shelf has {left}}}; the usual {perWeek} a week uses that up by {runOutDay}.',
  'stock.say.shut':
    'Order {order} {item}. {left} lasts to {belowDay}, but {supplier} next takes orders {nextDay}, to be here {nextArrival}.',
  'stock.say.empty': 'Order {order} {item}. Nothing is left by the stock list; {perWeek} a week is usual.',
  'stock.say.gone':
    'Order {order} {item}. Nothing is left by the stock list, and no use of it is known yet. Count it first if there is some.',
  'stock.say.chase':
    '{item}: {coming} is on its way, due {due}; {out, select, yes {nothing is left by the stock list now} other {by then it has run out ({runOutDay})}}. Ask whether it can come sooner.',
  'stock.say.chaseLate':
    '{item}: {coming} was due {due} and has not come; {out, select, yes {nothing is left by the stock list} other {it runs out {runOutDay}}}. Ask the supplier.',
  'stock.say.needOnly':
    'Use is known from {usedDaysCount, plural, =0 {no day} one {{usedDays} day} other {{usedDays} days}} in {days}: too little to say what amount costs least, so this covers what is booked, what is usual so far, and {cover} days more.',
  'stock.say.lot':
    '{needCount, plural, =0 {None is needed at once} one {{need} is needed at once} other {{need} are needed at once}}; {packs} at a time cost least, ordering and keeping together, and last about {weeksCount, plural, one {a week} other {{weeks} weeks}}.',
  'stock.say.priceBreak':
    '{needCount, plural, =0 {None is needed at once} one {{need} is needed at once} other {{need} are needed at once}}; from {packs} the price falls, which makes the year cheaper; they last about {weeksCount, plural, one {a week} other {{weeks} weeks}}.',
  'stock.say.pads':
    'Order {order} {item}. {customer} needs {needs} on {day}; {has} would be clean then, and washing all of them is not enough.',

  'stock.conflict.shelf': 'The shelf takes {shelf} packs; the need is {need}.',
  'stock.conflict.life': 'Sealed it keeps {days} days, which is {amount} at the usual use; the need is more.',
  'stock.conflict.opened':
    'Opened it keeps {days} days; a pack lasts longer than that. A smaller pack would waste less.',
  'stock.conflict.minimum': '{missing} below the smallest order of {supplier}.',

  'stock.in.onHand': 'On hand by the stock list',
  'stock.in.onOrder': 'On order',
  'stock.in.reserved': 'Booked jobs draw by then',
  'stock.in.position': 'On hand and on order, less what is booked',
  'stock.in.usualByThen': 'Usual use by then that is not booked yet',
  'stock.in.perDay': 'Usual use a day, all days',
  'stock.in.history': 'Days of history behind it',
  'stock.in.openDays': 'of them open',
  'stock.in.usedDays': 'of them with use',
  'stock.in.arrives': 'Ordered today it is here',
  'stock.in.arrivesNext': 'Ordered on the next ordering day it is here',
  'stock.in.safety': 'Kept back, since use and delivery stray',
  'stock.in.mayLack': 'May be short before it comes, by the share set under Shop',
  'stock.in.reorderPoint': 'Reorder point: usual use by then and what is kept back',
  'stock.in.shortfall': 'Missing to two weeks after arrival',
  'stock.in.economic': 'Amount that costs least, ordering and keeping together',
  'stock.in.shelf': 'Room on the shelf',
  'stock.in.life': 'Used before it expires',
  'stock.in.price': 'Price of a pack',
  'stock.in.packs': 'Packs',
  'stock.in.clean': 'Clean',
  'stock.in.round': 'Clean, in use, dirty and washing',
  'stock.in.usesPerLife': 'Uses a piece lasts',
  'stock.in.learnedFrom': 'Retired pieces behind it',
  'stock.in.washDays': 'Days a wash takes',
  'stock.in.lacking': 'Pieces missing though what is dirty is washed each evening',

  'stock.rule.reorder':
    'Order so early that the share of what jobs ask for that is set under Shop is there when they ask, even when use and delivery stray as they usually do; what is on its way counts as there. How much: what costs least over the year or what is missing, whichever is more, in whole packs, at most what is used before it expires and what the shelf takes; more where a price break makes the year cheaper. With less than eight weeks of history, or use on fewer than six days, only what is missing. Kept back: z · √(variance of use + use² · variance of the lead time), z so that what a wait leaves short is no more of a lot than that share allows, so that with large lots it is below 0 and the order goes out a little later; at the latest when nothing is left and nothing on its way.',
  'stock.rule.rare':
    'Used on few days only: what is kept back comes from drawing past days at random over and over, the usual use from how much and how seldom it is used (Croston, corrected by Syntetos and Boylan). How much is ordered follows the same rule as for all items.',
  'stock.rule.pads':
    'Pieces go round: clean, dirty, in the wash for the days set under Shop, clean. Order when a day needs more than can be clean by then. How long a piece lasts: all uses, divided by the pieces retired.',
  'stock.rule.enough': 'Nothing to order: an order on the next ordering day still comes in time.',
  'stock.rule.noSupplier': 'Nobody is written down who sells this item, so nothing is suggested.',
  'stock.source.reorder':
    'Silver, Pyke & Peterson; Snyder & Shen, Fundamentals of Supply Chain Theory; Harris (1913). Spread of booked draws 25 % and two weeks’ cover: common practice, no source.',
  'stock.source.rare': 'Croston (1972); Syntetos & Boylan (2005), cut-off 1.32.',
  'stock.source.pads': 'Common practice, no source; life by maximum likelihood.',

  'stock.file.order': 'Purchase order {number}',
  'stock.file.labels': 'Shelf labels',
  'stock.file.item': 'item',
  'stock.file.code': 'your number',
  'stock.file.pack': 'pack',
  'stock.file.packs': 'packs',
  'stock.file.price': 'price a pack',
  'stock.file.sum': 'sum',
  'stock.file.total': 'Total before tax',
  'stock.file.to': 'To',
  'stock.file.mail':
    'Dear {supplier},\n\nplease find our purchase order {number} attached, wanted by {due}.\n\nKind regards\n{shop}',
  'stock.file.day': 'Ordered {day}, wanted by {due}.',
} as const;
