/** The shop and its settings. */
export const shopTexts = {
  'error.SHOP_ALREADY_SET_UP':
    '{name} is set up already. Change it under Shop; a second shop needs its own data folder.',
  'error.ZONE_UNKNOWN':
    '{zone} is not a time zone that this computer knows. Write it as a region and a town, for example Europe/Vienna.',
  'error.LOCALE_UNKNOWN': '{locale} is not a language code. Write it as en or en-GB.',
  'error.NO_RATE': 'There is no price of an hour for this work on {day}. Set one under Shop, Rates.',
  'error.NO_TAX': 'There is no tax set for {day}. Set one under Shop, Taxes; the shop’s adviser says which.',
  'error.DAY_UNKNOWN': '{day} is not a day of the calendar. Write it as 2026-11-25.',
  'error.DATED_ALREADY':
    '{what, select, rate {A price} tax {A tax rate} other {One}} from {day} is there already. Choose another day.',
  'error.DAY_PAST': '{day} is past. What was charged then stays as it was; choose {today} or later.',
  'error.TAX_CATEGORY_RATE':
    '{category, select, S {A taxed category needs a rate above 0 %. For no tax choose zero rated, exempt, reverse charge or outside.} other {This category charges no tax: the rate has to be 0 %.}}',
  'error.TAX_REASON_MISSING':
    'An invoice without tax has to say why. Write the reason as it should be printed; the shop’s adviser knows the words.',
  'error.SETTING_UNKNOWN': 'There is no rule called {setting}.',
  'error.SETTING_OUT_OF_RANGE': '{setting} does not fit: {problem}. Nothing was changed.',
} as const;
