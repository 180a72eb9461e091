import type { ListPriceRow } from '../listPrices.ts';
import type { ShopSettings } from '../settings.ts';
import type { TaxCategory, TaxCode, TaxPart } from '../tax.ts';
import type { LocalDay, Minor, Ppm } from '../units.ts';
import type { BodyStyle, Skill, StageKind } from '../vocabulary.ts';
import type { Protection, Wish } from './estimate.ts';

/** How the shop writes its units. */
export type ShopUnits = {
  readonly filmUnit: 'um' | 'mil';
  readonly volumeUnit: 'ml' | 'floz';
  readonly lengthUnit: 'm' | 'ft';
  readonly paper: 'A4' | 'Letter';
};

/** The shop itself: who it is, where its clock and its money are, and its rules. */
export type Shop = ShopUnits & {
  readonly name: string;
  readonly address: string;
  readonly phone: string;
  readonly email: string;
  readonly taxNumber: string;
  readonly country: string;
  readonly zone: string;
  readonly currency: string;
  readonly locale: string;
  readonly settings: ShopSettings;
  readonly isDemo: boolean;
  readonly demoDay: LocalDay | null;
  readonly revision: number;
};

/** What any window may know before somebody signs in. */
export type ShopState =
  | { readonly setUp: false }
  | (ShopUnits & {
      readonly setUp: true;
      readonly name: string;
      readonly zone: string;
      readonly currency: string;
      readonly currencyDigits: number;
      readonly locale: string;
      readonly today: LocalDay;
      readonly isDemo: boolean;
      /** Days since the day a demo shop was built around; null for a real shop. Above 3 it offers to rebuild. */
      readonly demoAgeDays: number | null;
    });

/** One dated price of an attended hour. */
export type RateRow = {
  readonly id: string;
  readonly applies: 'all' | 'skill' | 'stage';
  readonly subject: Skill | StageKind | '';
  readonly fromDay: LocalDay;
  readonly hourMinor: Minor;
};

/** One dated rate of a tax. */
export type TaxRow = {
  readonly id: string;
  readonly code: TaxCode;
  readonly name: string;
  readonly category: TaxCategory;
  readonly ratePpm: Ppm;
  readonly reason: string;
  /** Several taxes on one sale, in the order they are reckoned; [] = one. */
  readonly parts: readonly TaxPart[];
  readonly fromDay: LocalDay;
};

export const CHARGE_KINDS = ['minimum', 'rush', 'afterHours'] as const;
export type ChargeKind = (typeof CHARGE_KINDS)[number];

/** One dated charge: an amount for `minimum`, a share of the price for the others; 0 = none. */
export type ChargeRow = {
  readonly id: string;
  readonly kind: ChargeKind;
  readonly amountMinor: Minor;
  readonly sharePpm: Ppm;
  readonly fromDay: LocalDay;
};

/** What a job costs beside its work; 0 = none. */
export type ChargeShares = {
  readonly minimumMinor: Minor;
  readonly rushPpm: Ppm;
  readonly afterHoursPpm: Ppm;
};

/** One dated price of a package: work of a known extent for one sum. */
export type PackageRow = {
  readonly id: string;
  readonly name: string;
  readonly wish: Wish;
  readonly interior: boolean;
  readonly protection: Protection;
  /** None = for all. */
  readonly bodies: readonly BodyStyle[];
  /** Null = no longer offered. */
  readonly priceMinor: Minor | null;
  readonly fromDay: LocalDay;
};

/** The Shop place: the shop, and every dated row with whether it holds today. */
export type ShopPage = {
  readonly shop: Shop;
  readonly rates: readonly (RateRow & { readonly holds: boolean })[];
  readonly taxes: readonly (TaxRow & { readonly holds: boolean })[];
  readonly charges: readonly (ChargeRow & { readonly holds: boolean })[];
  readonly packages: readonly (PackageRow & { readonly holds: boolean })[];
  readonly listPrices: readonly (ListPriceRow & { readonly holds: boolean })[];
  /** Of the logo's file; '' = none. */
  readonly logoHash: string;
};
