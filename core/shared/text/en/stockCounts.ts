/** The day's count: its list, its page, and reading it back. */
export const stockCountsTexts = {
  'problem.noSuchItem': 'no item kept is called so',
  'problem.otherUnit': 'this item is counted in {limit}',
  'problem.notAmount': 'it has to be an amount from 0 up, not finer than a thousandth of its unit',
  'problem.twoWays':
    'three digits behind a point or a comma can be read in two ways in this list: write one of {limit}, without a mark for thousands',
  'problem.lineAhead': 'the ledger of this item has no such line yet; make the list again',
  'problem.countedSince':
    'it was counted since this list was made; leave the line out or make the list again',

  'stock.file.count': 'Count list',
  'stock.file.countText':
    'Write what is on the shelf, opened ones included, 0 for nothing. What is used while you count stays as it is.',
  'stock.file.place': 'place',
  'stock.file.lastCount': 'last counted',
  'stock.file.counted': 'counted',

  'stock.ui.worthOn': 'Worth on a day',
  'stock.ui.worthOnText':
    'What all stock was worth at the end of a day, at the moving average; for the accountant.',
  'stock.ui.worthDay': 'At the end of',

  'stock.ui.countList': 'Count today',
  'stock.ui.countListNote':
    '{later, plural, =0 {nothing waits for a later day} other {# more on later days}}',
  'stock.ui.countListText':
    'What the shop’s money goes into is counted every 30 days, the next every 90, the rest every 180; sooner where draws were corrected. A few a day.',
  'stock.ui.countNothing': 'Nothing to count today',
  'stock.ui.countNothingText': 'Every item was counted within its turn, and nobody asked for a count.',
  'stock.ui.countPrint': 'Print the list',
  'stock.ui.countCsv': 'Save it as CSV',
  'stock.ui.countBack': 'Read a filled-in list',
  'stock.ui.countBackText':
    'The CSV list with amounts in its last column. First it is only checked; a line without a figure is left out.',
  'stock.ui.countChecked':
    '{rows, plural, one {# line} other {# lines}}: {counted} counted, {empty} without a figure.',
  'stock.ui.countDiffers':
    '{item}: {counted}, {by} {way, select, more {more} other {less}} than the stock list had',
  'stock.ui.countSame': '{n, plural, one {# agrees} other {# agree}} with the stock list.',
  'stock.ui.countTake': 'Take the counts over',
  'stock.ui.countNoFigure': 'No line of the list has a figure.',
  'stock.ui.countTaken': '{n, plural, one {# count} other {# counts}} taken over.',
  'stock.ui.countEvery': '{of, select, A {every 30 days} B {every 90 days} other {every 180 days}}',
  'stock.ui.countReason':
    '{why, select, negative {more used than the stock list had} full {whole count} asked {asked for} corrected {draws were corrected} other {in its turn}}{last, select, never {, never counted} other {, counted {last}}}',
} as const;
