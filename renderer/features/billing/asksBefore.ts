import { fitsPackage } from '#core/shared/packages.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import type { PackageRow, ShopPage } from '#core/shared/views/shop.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { type ThingAsked, thingsBefore, thingsOf } from './thingsAsked.ts';

/** What the desk asks for beside the work; a package for each estimate that is priced by one. */
export type Asks = {
  readonly rush: boolean;
  readonly afterHours: boolean;
  readonly packages: Readonly<Record<string, string>>;
  /** Estimates that are priced by the panel. */
  readonly byPanel: readonly string[];
  readonly things: readonly ThingAsked[];
};
export const NO_ASKS: Asks = { rush: false, afterHours: false, packages: {}, byPanel: [], things: [] };

/** The same as the command takes it, packages and things by the place of their option. */
export function askedOf({ rush, afterHours, packages, byPanel, things }: Asks, ids: readonly string[]) {
  return {
    ...{ rush, afterHours, packageIds: ids.map((id) => packages[id] ?? null) },
    byPanel: ids.map((id) => byPanel.includes(id)),
    things: ids.map((id) => thingsOf(things, id)),
  };
}

/** Packages that hold and can be asked for today. */
export function offeredOf(packages: ShopPage['packages']): ShopPage['packages'] {
  return packages.filter((pack) => pack.holds && pack.priceMinor !== null);
}

/**
 * What a next version begins with: the surcharges and things of the one before it, and its packages, each for the
 * estimates that it is for and while it is still offered.
 */
export function asksBefore(
  before: Pick<QuoteView, 'options' | 'acceptance'>,
  estimates: readonly EstimateView[],
  offered: readonly PackageRow[],
  body: BodyStyle,
): Asks {
  const lines = before.options.flatMap((option) => option.bill.lines);
  const names = lines.filter((line) => line.what === 'package').map((line) => line.text);
  const packages = estimates.flatMap((estimate): [string, string][] => {
    const pack = offered.find((p) => names.includes(p.name) && fitsPackage(p, estimate, body));
    return pack ? [[estimate.id, pack.id]] : [];
  });
  const has = (what: 'rush' | 'afterHours'): boolean => lines.some((line) => line.what === what);
  const panels = lines.some((line) => line.what === 'panel' && line.quoted === undefined);
  const byPanel = panels ? estimates.map((e) => e.id) : [];
  const surcharges = { rush: has('rush'), afterHours: has('afterHours') };
  const things = thingsBefore(before, estimates);
  return { ...surcharges, packages: Object.fromEntries(packages), byPanel, things };
}
