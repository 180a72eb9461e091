/** Several taxes on one sale, and labour without tax. */
export const taxesTexts = {
  'error.TAX_PARTS':
    'Taxes on one sale need names or rates that tell them apart, and come to no more than the sale itself. Nothing was saved.',
  'setting.billing.labourTaxed': 'Labour is taxed',
  'shop.taxParts': 'Taxes on one sale, in the order they are reckoned',
  'shop.taxPart': 'Tax {n}',
  'shop.taxPartOn': 'reckoned on the taxes before it too',
  'shop.taxPartMore': 'Another tax on the same sale',
  'shop.taxPartLess': 'Without the last one',
  'shop.taxPartsWhole': 'Together {rate}',
  'shop.taxPartsNote':
    'For places where several are due on one sale, such as a state’s and a county’s. Each is a row of its own on documents and in the tax report. Such documents have no e-invoice.',
  'shop.taxNeedsParts': 'Give each tax its name and its rate first.',
  'field.parts': 'taxes on one sale',
  'field.onTax': 'reckoned on tax',
} as const;
