import type { TaxCode } from '../tax.ts';
import type { StageKind } from '../vocabulary.ts';

/** Refusals of the shop area: code → data. Every code has its sentence in core/shared/text. */
export type ShopErrors = {
  readonly SHOP_ALREADY_SET_UP: { readonly name: string };
  readonly ZONE_UNKNOWN: { readonly zone: string };
  readonly LOCALE_UNKNOWN: { readonly locale: string };
  readonly NO_RATE: { readonly stage: StageKind; readonly day: string };
  readonly NO_TAX: { readonly code: TaxCode; readonly day: string };
  /** Amounts are kept in it already. */
  readonly CURRENCY_IN_USE: { readonly currency: string };
  /** A dated row may not begin before today: what was charged then was charged then. */
  readonly DAY_PAST: { readonly day: string; readonly today: string };
  /** Of a package that the shop does not have yet: nothing says what work it is. */
  readonly PACKAGE_WORK_MISSING: { readonly name: string };
  /** A package that the shop does not have, or no longer. */
  readonly PACKAGE_NOT_OFFERED: { readonly name: string };
  /** A thing is sold; what goes round in the shop stays there. */
  readonly THING_GOES_ROUND: { readonly item: string };
  readonly TAX_CATEGORY_RATE: { readonly category: string };
  readonly LOGO_TOO_LARGE: { readonly mostMb: number; readonly mostPx: number };
  /** No whole PNG or JPEG of a kind that documents take. */
  readonly LOGO_UNREADABLE: Readonly<Record<string, never>>;
  /** Several taxes on one sale that cannot be told apart, or come to more than the sale. */
  readonly TAX_PARTS: Readonly<Record<string, never>>;
  readonly TAX_REASON_MISSING: { readonly category: string };
  readonly SETTING_UNKNOWN: { readonly setting: string };
  readonly SETTING_OUT_OF_RANGE: {
    readonly setting: string;
    readonly wrong: 'high' | 'low' | 'other';
  };
};
