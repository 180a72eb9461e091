/** The shop's own names for its taxes; each has dated rates. `standard` is what labour and materials take. */
export const TAX_CODES = ['standard', 'reduced', 'reduced2', 'zero', 'exempt', 'reverse', 'outside'] as const;
export type TaxCode = (typeof TAX_CODES)[number];

/**
 * Tax category codes used on invoices: S standard or reduced, Z zero rated, E exempt, AE reverse charge,
 * O outside the scope of tax.
 * @source EN 16931-1, code list UNCL5305 (subset)
 */
export const TAX_CATEGORIES = ['S', 'Z', 'E', 'AE', 'O'] as const;
export type TaxCategory = (typeof TAX_CATEGORIES)[number];
