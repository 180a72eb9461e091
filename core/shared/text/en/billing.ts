/** Quotes, invoices, money in. */
export const billingTexts = {
  'error.CURRENCY_UNKNOWN': '{code} is not a currency code. Use three letters such as EUR.',
} as const;
