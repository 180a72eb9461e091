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

/** The most taxes that one sale bears: country, state, county, city, district and one to spare. */
export const MOST_TAX_PARTS = 6;

/** One of several taxes on the same sale, such as a state's and a county's; `onTax` = reckoned on the taxes before it too. */
export type TaxPart = { readonly name: string; readonly ratePpm: number; readonly onTax: boolean };

const MILLION = 1_000_000n;

/**
 * What a net amount comes to with its taxes, exactly: `num / den` of it. One tax: (1,000,000 + ppm) / 1,000,000. Of
 * several each adds its share of the net, or, reckoned on tax, of all before it.
 */
export function factorOf(tax: {
  readonly ratePpm: number;
  readonly parts?: readonly TaxPart[] | undefined;
}): {
  readonly num: bigint;
  readonly den: bigint;
} {
  const parts = tax.parts ?? [{ ratePpm: tax.ratePpm, onTax: false }];
  return parts.reduce(
    ({ num, den }, { ratePpm, onTax }) => {
      const rate = BigInt(ratePpm);
      return { num: num * MILLION + rate * (onTax ? num : den), den: den * MILLION };
    },
    { num: 1n, den: 1n },
  );
}

/** All of several taxes as one rate, half up, for where only one can be said. */
export function wholeRatePpm(parts: readonly TaxPart[]): number {
  const { num, den } = factorOf({ ratePpm: 0, parts });
  return Number((2n * (num - den) * MILLION + den) / (2n * den));
}
