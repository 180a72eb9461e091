/** Quotes, invoices, money in. */
export const billingTexts = {
  'error.CURRENCY_UNKNOWN': '{code} is not a currency code. Use three letters such as EUR.',
  'error.MONEY_ABOVE_OWED':
    '{owedMinor} is owed; {aboveMinor} is above it. Say what the rest is: a deposit, a tip or a credit for later. Nothing was booked.',
  'error.REFUND_ABOVE_PAID': 'Only {paidMinor} can be paid back, not {askedMinor}. Nothing was booked.',
  'error.CREDIT_ABOVE_LINE': 'The line "{line}" has {lineMinor}; {askedMinor} cannot be credited on it.',
  'error.CREDIT_ABOVE_INVOICE':
    'Only {leftMinor} of this invoice is left to credit, not {askedMinor}. Earlier credit notes count.',
  'error.NOTHING_TO_CREDIT': 'No amount was given to credit. Choose lines and amounts.',
  'error.NOTHING_TO_BILL': 'There is nothing to bill yet: no agreed quote and no work done.',
  'error.ISSUE_DATE_BEHIND':
    'The clock says {today}, but the last document is dated {lastDay}. Numbers and dates must rise together. Set the computer’s clock right, or issue with the date {lastDay}. Nothing was issued.',
  'error.ISSUE_DATE_AHEAD':
    'The clock says {today}, more than 7 days after the last document ({lastDay}). Is the date right? Confirm it to issue. Nothing was issued.',
  'error.NUMBER_TO_CONFIRM':
    'This file came from a copy. Its last document is number {last}. Look at the last printed one and enter its number before issuing more.',
  'error.PAPER_NUMBER_TOO_LOW':
    'Number {last} is already issued in this file, so the last paper cannot be {paper}. Look again.',
  'error.NO_DEPOSIT_HELD':
    'No deposit is held for this job and no fee was asked, so there is nothing to settle.',
  'error.INVOICE_ISSUED': 'Document {number} is issued and never changes. Correct it with a credit note.',
  'error.INVOICES_OF_SEVERAL': 'These invoices belong to several payers. Take their money one by one.',
  'error.INVOICE_NOT_ISSUED': 'This invoice is still a draft. Issue it first.',
  'error.QUOTE_STATE': 'This quote is {state}, so this cannot be done with it.',
  'error.QUOTE_LAPSED': 'This quote was good until {validDay}. Make a new version, or agree it knowingly.',
  'error.OPTION_UNKNOWN': 'This quote has no option {letter}.',
  'error.TAX_MIXED_OUTSIDE':
    'Lines outside the scope of tax cannot stand on one document with taxed lines. Put them on a document of their own.',
  'error.ESTIMATES_OF_OTHER_JOB': 'An estimate chosen belongs to another job. Choose estimates of this one.',
  'error.JOB_ALREADY_BILLED':
    'This job has invoice {number} already. Credit that one first, or bill further work as a free invoice.',
  'error.UBL_CURRENCY_DIGITS':
    'The invoice format for machines allows two decimals, {currency} has more. Send the PDF.',
  'error.UBL_SELLER_INCOMPLETE':
    'The invoice for machines needs more about the shop or the customer: {missing}. Enter it and try again.',
  'error.PERIOD_REVERSED': 'The period ends ({toDay}) before it begins ({fromDay}).',

  'billing.deductedLine': 'Deposit paid, invoice {number} of {day}',
  'billing.prepaymentLine': 'Deposit for job {job}, {vehicle}',
  'billing.feeLine': 'Cancellation fee, job {job}',

  'billing.line.labour.inspection': 'Inspection',
  'billing.line.labour.prepare': 'Wash, decontaminate, clay',
  'billing.line.labour.mask': 'Mask',
  'billing.line.labour.cut': 'Cut',
  'billing.line.labour.refine': 'Refine',
  'billing.line.labour.finish': 'Wipe, protect, check',
  'billing.line.labour.interior': 'Interior',
  'billing.line.materials': 'Materials',
  'billing.line.goods': 'Goods',
  'billing.line.fee': 'Fee',
  'billing.line.discount': 'Discount',
  'billing.line.deposit': 'Deposit',
} as const;
